import './papers.css';
import { type Params, paperAddress } from '../api/client.ts';
import { papers } from '../words/papers.ts';

interface Props {
  /** 'PLUGIN/PAPER'. */
  readonly paper: string;
  readonly params?: Params;
  /** What it is, as its button says. */
  readonly title: string;
}

/** Opens a paper as a PDF, or keeps it as a file. */
export function PaperLink({ paper, params, title }: Props) {
  return (
    <span class="paper-link no-paper">
      <a class="button" href={paperAddress(paper, params)} target="_blank" rel="noreferrer">
        {papers.open(title)}
      </a>
      <a
        class="button plain"
        href={paperAddress(paper, { ...params, save: 'yes' })}
        download
        aria-label={papers.saveOf(title)}
      >
        {papers.save}
      </a>
    </span>
  );
}
