/** Timed work that fails again and again, as lines of Today. */
import type { WaitingRow } from '../contract/telling.ts';
import type { PluginJobs } from './jobs.ts';

/** A single failure passes by itself: the shop was busy, the network away. */
const OFTEN = 3;

export function failing(jobs: PluginJobs): WaitingRow[] {
  return jobs.all().flatMap(([plugin, name, job]) => {
    const { off, failures = 0, since, last } = jobs.book.of(plugin.id, name);
    if (off || failures < OFTEN) return [];
    return [
      {
        does: 'fetch',
        title: 'Failing again and again',
        order: 38,
        what: job.title,
        where: last?.sentence ?? null,
        since: since ?? null,
        to: '/settings/by-itself',
      },
    ];
  });
}
