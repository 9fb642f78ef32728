/**
 * The one page that is served without https: it hands out the authority's certificate and says how to trust it.
 * It takes nothing in, and shows nothing of the studio.
 */
import { X509Certificate } from 'node:crypto';
import { Hono } from 'hono';
import { html, raw } from 'hono/html';
import { secureHeaders } from 'hono/secure-headers';
import { isOwnNetwork } from './places.ts';
import { PLAIN_LOOK } from './plain-look.ts';
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
  app.get('/look.css', (c) => c.body(PLAIN_LOOK, 200, { 'content-type': 'text/css; charset=utf-8' }));
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
