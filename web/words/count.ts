export const count = {
  fewer: (what: string) => `One fewer: ${what}`,
  more: (what: string) => `One more: ${what}`,
} as const;
