import { problems } from '../words/problems.ts';
import { shell } from '../words/shell.ts';
import { Page } from './page.tsx';

/** A screen that failed to draw: the rest of the page goes on. */
export const Broken = ({ error }: { readonly error: Error }) => (
  <Page title={problems.screen}>
    <div class="problem" role="alert">
      <p>{problems.screenKept}</p>
      <p>{problems.screenDo}</p>
      <p class="code">{shell.codeIs(error.message)}</p>
    </div>
    <a class="button" href="/" onClick={() => location.assign('/')}>
      {shell.today}
    </a>
  </Page>
);
