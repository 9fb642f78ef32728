import { shell } from '../words/shell.ts';
import { Page } from './page.tsx';

export const NotFound = () => (
  <Page title={shell.notFound} back={{ href: '/', to: shell.today }}>
    <p class="prose">{shell.notFoundWhy}</p>
  </Page>
);
