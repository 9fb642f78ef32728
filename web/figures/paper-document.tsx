import { useEffect, useState } from 'preact/hooks';
import { figures } from '../words/figures.ts';

/** A PDF that came with the answer, opened in a page of its own. */
export function PaperDocument({ title, base64 }: { readonly title: string; readonly base64: string }) {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const made = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [base64]);
  if (!address) return null;
  return (
    <p class="no-paper">
      <a
        class="button"
        href={address}
        target="_blank"
        rel="noreferrer"
        aria-label={`${figures.pdf}: ${title}`}
      >
        {figures.pdf}
      </a>
    </p>
  );
}
