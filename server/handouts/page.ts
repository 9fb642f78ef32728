/** The small page that a link opens: what there is to fetch, and the one button that fetches it. No script. */
import { html, raw } from 'hono/html';
import type { Open } from './hand-out.ts';
import { words } from './words.ts';

export const LOOK = '/fetch/look.css';

const around = (studio: string, title: string, inside: unknown) =>
  html`${raw('<!doctype html>')}<html lang="${words.language}">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <meta name="robots" content="noindex">
    <title>${title}</title>
    <link rel="stylesheet" href="${LOOK}">
  </head>
  <body><main>
    <p class="studio">${studio}</p>
    <h1>${title}</h1>
    ${inside}
  </main></body>
</html>`;

/** @param action path that the button sends to: the page's own */
export const fetchPage = (studio: string, action: string, { standing, left, sizes }: Open) =>
  around(
    studio,
    standing.title,
    html`${standing.order === undefined ? '' : html`<p>${words.order(standing.order)}</p>`}
    ${standing.licence === undefined ? '' : html`<p>${standing.licence}</p>`}
    <p>${words.left(left, standing.until)}</p>
    <form method="post" action="${action}">
      ${
        sizes.length === 0
          ? ''
          : html`<label for="paper">${words.paper}</label>
      <select id="paper" name="paper">${sizes.map((size) => html`<option>${size}</option>`)}</select>`
      }
      <p><button class="get" type="submit">${words.fetch}</button></p>
    </form>
    <p>${words.trueSize}</p>
    <p>${words.counts}</p>`,
  );

export const shutPage = (studio: string, sentence: string) =>
  around(studio, words.shut, html`<p>${sentence}</p>`);
