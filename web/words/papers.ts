export const papers = {
  open: (title: string) => `${title} (PDF)`,
  save: 'Keep as a file',
  saveOf: (title: string) => `Keep as a file: ${title}`,
  atFullSize: 'Print it at 100 %, not fitted to the page.',
} as const;
