/** The read models of all plugins: kept up with the log, and asked by reports. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Answer } from '../contract/figures.ts';
import type { Ask, Plugin, Settings, StoryEntry } from '../contract/plugin.ts';
import { dayAt } from '../host/days.ts';
import type { Past } from '../host/host.ts';
import type { Registry } from '../host/registry.ts';
import type { Clock, EventLog } from '../log/log.ts';
import type { People } from '../people/people.ts';
import { askOn } from './ask.ts';
import { askGivenPapers, askHandout, type HandoutNow, type OfferedPaper } from './handouts.ts';
import { Kept } from './kept.ts';
import { ReadModel } from './model.ts';
import { type DescribedPaper, describePaper, findPaper, PaperFailed } from './papers.ts';
import { type Params, parseParams } from './params.ts';
import { beforeOf, PastModels } from './past.ts';
import { type ModelPlan, planModel } from './plan.ts';
import { findReport, ReportFailed, runReport } from './reports.ts';
import { Runner, type Sizes } from './runner.ts';
import { type Standing, standingOf } from './standing.ts';
import { Stories } from './stories.ts';

export interface ReadModelsOptions {
  readonly registry: Registry;
  readonly log: EventLog;
  readonly people: People;
  /** Pictures for the plugins that want 'files'. */
  readonly picture?: Ask['picture'];
  /** Folder of the read models (`read`); made where there is none. */
  readonly dir: string;
  /** The settings as they are now. */
  readonly settings: () => Promise<Settings>;
  readonly clock: Clock;
  /** Whether every answer is held against the figures' schema; not in production when not said. */
  readonly check?: boolean;
  /** Sizes of batches and caches, for tests. */
  readonly sizes?: Sizes;
  /** Read models of the past that are kept. */
  readonly pastKept?: number;
}

export type Progress = (done: number, of: number) => void;

export interface ReadModels {
  /** @throws ReportRefused, UnknownReport, ReportFailed */
  report(plugin: string, report: string, params: Params): Promise<Answer>;
  /** Names of the streams that a device keeps, of all plugins, each once; a plugin that fails is named and left out. */
  day(): Promise<{ readonly streams: readonly string[]; readonly failed: readonly string[] }>;
  /** @throws ReportRefused, PaperRefused, UnknownPaper, PaperFailed */
  paper(plugin: string, paper: string, params: Params): Promise<DescribedPaper>;
  /** How something that may be fetched stands. @throws HandoutFailed */
  handout(plugin: string, handout: string, key: string): Promise<HandoutNow>;
  /** Papers that any plugin may name, to be handed out. @throws HandoutFailed */
  givenPapers(): Promise<OfferedPaper[]>;
  standing(): Promise<Standing[]>;
  /** Streams of every plugin whose free texts concern a person. @throws ReportFailed naming the plugin that cannot say */
  concerning(person: string): Promise<string[]>;
  /** Throws read models away and builds them again; all of them when no plugin is named. */
  rebuild(plugin?: string, progress?: Progress): Promise<void>;
  /** Resolves when every read model that can holds entry `seq`; the log's last when none is said. */
  waitFor(seq?: number): Promise<void>;
  /** Follows the log only where somebody waits for it, until let go: for long lists of commands. */
  hold(): () => void;
  story(stream: string, past?: Past): Promise<StoryEntry[]>;
  state(stream: string, past?: Past): Promise<unknown>;
  close(): Promise<void>;
}

/** Opens the read models and begins to bring them up in the background. */
export async function openReadModels(options: ReadModelsOptions): Promise<ReadModels> {
  mkdirSync(options.dir, { recursive: true });
  const opened = new OpenReadModels(options);
  await opened.open();
  return opened;
}

class OpenReadModels implements ReadModels {
  private readonly models: Map<string, ReadModel>;
  private readonly runner: Runner;
  private readonly past: PastModels;
  private readonly kept = new Kept();
  private stop: () => void = () => {};

  constructor(private readonly options: ReadModelsOptions) {
    const { registry, log, dir, sizes } = options;
    this.models = new Map(registry.plugins.map((it) => [it.id, modelOf(it, dir)]));
    this.runner = new Runner({ log, registry, models: [...this.models.values()], sizes });
    this.past = new PastModels({ log, registry, dir: join(dir, 'past'), sizes, kept: options.pastKept });
  }

  async open(): Promise<void> {
    await this.runner.open();
    this.stop = this.options.log.onAppended(() => this.runner.kick());
    this.runner.kick();
  }

  async report(plugin: string, name: string, params: Params): Promise<Answer> {
    const { registry, people } = this.options;
    const report = findReport(registry.plugins, plugin, name);
    const { input, past } = parseParams(report, params);
    return this.asking(
      plugin,
      past,
      (ask) => runReport(plugin, name, report, ask, input, people, this.check),
      (failed) => new ReportFailed(plugin, name, failed),
    );
  }

  async paper(plugin: string, name: string, params: Params): Promise<DescribedPaper> {
    const { registry, people } = this.options;
    const offer = findPaper(registry.plugins, plugin, name);
    const { input, past } = parseParams(offer, params);
    return this.asking(
      plugin,
      past,
      (ask) => describePaper(plugin, name, offer, ask, input, people),
      (failed) => new PaperFailed(plugin, name, failed),
    );
  }

  handout(plugin: string, handout: string, key: string): Promise<HandoutNow> {
    return askHandout(this.options.registry, this.askingNow, plugin, handout, key);
  }

  givenPapers(): Promise<OfferedPaper[]> {
    return askGivenPapers(this.options.registry, this.askingNow);
  }

  async concerning(person: string): Promise<string[]> {
    const streams = new Set<string>();
    for (const { id, concerning } of this.options.registry.plugins) {
      if (!concerning) continue;
      const failure = (failed: Error) => new ReportFailed(id, 'what concerns a person', failed);
      const found = await this.asking(
        id,
        {},
        (ask) =>
          concerning(ask, person).catch((error) => {
            throw failure(error as Error);
          }),
        failure,
      );
      for (const stream of found) streams.add(stream);
    }
    return [...streams];
  }

  async day(): Promise<{ streams: readonly string[]; failed: readonly string[] }> {
    const streams = new Set<string>();
    const failed: string[] = [];
    for (const { id, day } of this.options.registry.plugins) {
      if (!day) continue;
      try {
        const failure = (cause: Error) => new ReportFailed(id, 'day', cause);
        for (const stream of await this.asking(id, {}, day, failure)) streams.add(stream);
      } catch {
        // Its read model says why; the others' streams are no less needed.
        failed.push(id);
      }
    }
    return { streams: [...streams], failed };
  }

  private readonly askingNow = <T>(
    plugin: string,
    work: (ask: Ask) => Promise<T>,
    failure: (failed: Error) => Error,
  ) => this.asking(plugin, {}, work, failure);

  /** Lets one ask of a plugin's read model, as it is or was, once it holds all that is recorded. */
  private async asking<T>(
    plugin: string,
    past: Past,
    work: (ask: Ask) => Promise<T>,
    failure: (failed: Error) => Error,
  ): Promise<T> {
    const { settings, people, log, clock } = this.options;
    const known = await settings();
    const today = past.asAt ?? dayAt(clock().getTime(), known.zone);
    const stories = this.stories(past, known.zone);
    const { count } = await log.head();
    const when = pastKey(past, known.zone);
    const kept = <T>(key: string, make: () => Promise<T>) => this.kept.once(`${plugin} ${when} ${key}`, make);
    const wanted = this.options.registry.plugin(plugin)?.wants?.includes('files');
    const picture = wanted ? this.options.picture : undefined;
    const ask = async (model: ReadModel, runner: Runner) => {
      // A rebuild may begin between the waiting and the reading.
      do await runner.waitFor(model, count);
      while (model.isBuilding && !model.failed);
      if (model.failed) throw failure(model.failed);
      return model.reading((reading) =>
        work(askOn({ reading, stories, people, picture, settings: known, today, past: when, kept })),
      );
    };
    const model = this.models.get(plugin)!;
    if (past.asAt === undefined && past.knownAt === undefined) return ask(model, this.runner);
    return this.past.using(model.plan, past, known.zone, (it) => ask(it.model, it.runner));
  }

  private get check(): boolean {
    return this.options.check ?? process.env.NODE_ENV !== 'production';
  }

  private stories(past: Past, zone: string): Stories {
    return new Stories(this.options.log, this.options.registry, {
      asAt: past.asAt,
      before: beforeOf(past, zone),
    });
  }

  async standing(): Promise<Standing[]> {
    return standingOf([...this.models.values()], this.options.registry);
  }

  async rebuild(plugin?: string, progress?: Progress): Promise<void> {
    const model = plugin === undefined ? undefined : this.models.get(plugin);
    if (plugin !== undefined && !model) throw new Error(`There is no plugin “${plugin}”.`);
    await this.runner.rebuild(model ? [model] : [...this.models.values()], progress);
  }

  async waitFor(seq?: number): Promise<void> {
    const until = seq ?? (await this.options.log.head()).count;
    await Promise.all([...this.models.values()].map((it) => this.runner.waitFor(it, until)));
  }

  hold(): () => void {
    return this.runner.hold();
  }

  async story(stream: string, past: Past = {}): Promise<StoryEntry[]> {
    return (await this.storiesNow(past)).story(stream, Number.POSITIVE_INFINITY);
  }

  async state(stream: string, past: Past = {}): Promise<unknown> {
    return (await this.storiesNow(past)).state(stream, Number.POSITIVE_INFINITY);
  }

  private async storiesNow(past: Past): Promise<Stories> {
    return this.stories(past, (await this.options.settings()).zone);
  }

  async close(): Promise<void> {
    this.stop();
    await this.runner.close();
    await this.past.close();
  }
}

/** A day ends at another instant once the studio has another zone. */
const pastKey = ({ asAt, knownAt }: Past, zone: string): string =>
  asAt === undefined && knownAt === undefined ? '' : `as-at ${asAt ?? ''} known-at ${knownAt ?? ''} ${zone}`;

function modelOf(plugin: Plugin, dir: string): ReadModel {
  const plan: ModelPlan = planModel(plugin);
  return new ReadModel(plan, join(dir, `${plugin.id}.db`));
}
