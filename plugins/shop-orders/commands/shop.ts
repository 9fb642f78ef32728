/** The shop's settings and the user's tariff tables. */

import { isCurrency } from '../../../server/contract/money.ts';
import { command } from '../../../server/contract/plugin.ts';
import { refuse } from '../../../server/contract/streams.ts';
import { freeText } from '../../../server/contract/text.ts';
import { records } from '../events.ts';
import { wrongWith } from '../label-grid.ts';
import { tariffFacts } from '../post/tariff-facts.ts';
import { shopFacts } from '../shop-facts.ts';
import { SETTINGS, SETTINGS_STREAM, shopKind } from '../state/shop.ts';

export const setShop = command({
  title: 'Set how the shop works',
  input: shopFacts.partial().extend({ sender: freeText(600).optional() }),
  texts: ['sender'],
  streams: () => [SETTINGS_STREAM],
  decide: (changes, streams) => {
    const facts = { ...streams.of(shopKind, SETTINGS).facts, ...changes };
    const strange = facts.rates.findIndex(({ of, to }) => !isCurrency(of) || !isCurrency(to));
    if (strange >= 0)
      return refuse('no-such-currency', 'A rate is between two currencies of ISO 4217.', `rates.${strange}`);
    const grid = facts.labels && wrongWith(facts.labels);
    if (grid) return refuse('no-such-labels', grid.sentence, `labels.${grid.field}`);
    return [records('shop.set', [SETTINGS_STREAM], facts)];
  },
});

export const writeTariff = command({
  title: 'Write down what the post costs',
  input: tariffFacts,
  streams: ({ tariff }) => [`tariff:${tariff}`],
  decide: (facts) => [records('tariff.written', [`tariff:${facts.tariff}`], facts)],
});
