/** WCAG 2.2 A and AA, and what is good practice besides, as axe checks them on a page. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Each with the rule, the element, and what is wrong with it. */
export async function violations(page: Page): Promise<string[]> {
  // In the page itself: without frames there is nothing to gather in a page of its own.
  const axe = new AxeBuilder({ page }).setLegacyMode().options({ resultTypes: ['violations'] });
  const { violations: found } = await axe.withTags(TAGS).analyze();
  return found.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`),
  );
}
