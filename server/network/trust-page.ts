/**
 * The one page that is served without https: it hands out the authority's certificate and says how to trust it.
 * It takes nothing in, and shows nothing of the studio.
 */
import { X509Certificate } from 'node:crypto';
import { Hono } from 'hono';
import { html, raw } from 'hono/html';
import { secureHeaders } from 'hono/secure-headers';
import { isOwnNetwork } from './places.ts';
import { trust as words } from './words.ts';

export interface TrustPage {
  /** PEM of the authority's certificate. */
  readonly certificate: () => string;
  readonly fingerprint: () => string;
  /** Where the page itself is then opened. */
  readonly addresses: () => readonly string[];
  /** Names it may be asked by, without the port. */
  readonly names: () => readonly string[];
}

const LOOK = `
:root { color-scheme: light dark; --ink: #1d1a16; --paper: #fbf9f4; --rule: #6b6459; --iron: #8a3413; }
@media (prefers-color-scheme: dark) { :root { --ink: #f1ece2; --paper: #171512; --rule: #a49b8c; --iron: #f0a07c; } }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1.125rem/1.5 system-ui, sans-serif; }
main { max-width: 38rem; margin: 0 auto; padding: 1.5rem 1.25rem 4rem; }
h1 { font-size: 1.6rem; line-height: 1.2; } h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; }
.get { display: inline-block; padding: .9rem 1.25rem; border: 2px solid var(--iron); color: var(--iron); font-weight: 650; text-decoration: none; }
a { color: var(--iron); } .place { display: block; padding: .75rem 0; overflow-wrap: anywhere; font-weight: 600; }
:focus-visible { outline: 3px solid var(--iron); outline-offset: 3px; }
code { display: block; font: 600 1rem/1.7 ui-monospace, monospace; overflow-wrap: anywhere; border-block: 1px solid var(--rule); padding: .5rem 0; }
li { margin: .4rem 0; }
`;

export function trustPage(options: TrustPage): Hono {
  const app = new Hono();
  app.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'none'"],
        styleSrc: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
        formAction: ["'none'"],
      },
      referrerPolicy: 'no-referrer',
      xFrameOptions: 'DENY',
      strictTransportSecurity: false,
    }),
  );
  app.use(async (c, next) => {
    const name = (c.req.header('host') ?? '').toLowerCase().replace(/:\d+$/, '');
    // A number of the own network is let in that is in no certificate yet: it only gets to see the certificate.
    if (!options.names().includes(name) && !isOwnNetwork(name)) return c.text(words.lost, 421);
    c.header('cache-control', 'no-store');
    return next();
  });
  app.get('/', (c) => c.html(page(options)));
  app.get('/look.css', (c) => c.body(LOOK, 200, { 'content-type': 'text/css; charset=utf-8' }));
  app.get(`/${words.file}`, (c) =>
    c.body(new Uint8Array(new X509Certificate(options.certificate()).raw), 200, {
      'content-type': 'application/x-x509-ca-cert',
      'content-disposition': `attachment; filename="${words.file}"`,
    }),
  );
  app.notFound((c) => c.text(words.lost, 404));
  return app;
}

const steps = (title: string, list: readonly string[]) =>
  html`<section><h2>${title}</h2><ol>${list.map((step) => html`<li>${step}</li>`)}</ol></section>`;

function page({ fingerprint, addresses }: TrustPage) {
  return html`${raw('<!doctype html>')}<html lang="${words.language}">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>${words.title}</title>
    <link rel="stylesheet" href="/look.css">
  </head>
  <body><main>
    <h1>${words.title}</h1>
    <p>${words.lead}</p>
    <p><a class="get" href="/${words.file}">${words.get}</a></p>
    ${steps(words.iphoneTitle, words.iphone)}
    ${steps(words.androidTitle, words.android)}
    ${steps(words.laptopTitle, words.laptop)}
    <section><h2>${words.compareTitle}</h2><p>${words.compare}</p><p>${words.here}</p><code>${fingerprint()}</code></section>
    <section><h2>${words.thenTitle}</h2><p>${words.thenOpen}</p>
      ${addresses().map((address) => html`<a class="place" href="${address}">${address}</a>`)}</section>
    <section><h2>${words.onlyTitle}</h2><p>${words.only}</p></section>
  </main></body>
</html>`;
}
