import { ImportFile } from '../import/import.tsx';
import { orderFile } from '../words/import.ts';
import { post } from '../words/post.ts';

/** Orders from a table. */
export default function BringIn() {
  return <ImportFile of={orderFile} back={{ href: '/post', to: post.title }} />;
}
