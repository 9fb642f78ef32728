import { Page } from '../app/page.tsx';
import { shell } from '../words/shell.ts';

export default function Import() {
  return <Page title={shell.import}>{null}</Page>;
}
