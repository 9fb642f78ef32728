export const papers = {
  title: 'Papers',
  loadSheet: 'Load sheet',
  openingSheet: 'Opening sheet',
  labels: 'Labels',
  label: 'Label',
  collectionSlips: 'Collection slips',
  priceCards: 'Price cards',
  priceCard: 'Price card',
  open: (title: string) => `${title} (PDF)`,
  save: 'Keep as a file',
  saveOf: (title: string) => `Keep as a file: ${title}`,
  atFullSize: 'Print it at 100 %, not fitted to the page.',
} as const;
