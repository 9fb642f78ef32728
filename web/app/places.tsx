import { useLocation } from 'preact-iso';
import { settings } from '../api/use-materials.ts';
import { FindBox } from '../find/find-box.tsx';
import { shell } from '../words/shell.ts';
import { stands } from '../words/stands.ts';
import { templates } from '../words/templates.ts';

/** The path's own place, for a page deep within it too. */
const within = (path: string, place: string): 'page' | 'true' | undefined => {
  if (path === place) return 'page';
  return place !== '/' && path.startsWith(`${place}/`) ? 'true' : undefined;
};

export const behind = [
  ['/log', shell.log, shell.logAbout],
  ['/materials', shell.materials, shell.materialsAbout],
  ['/templates', templates.title, templates.about],
  ['/people', shell.people, shell.peopleAbout],
  ['/settings', shell.settings, shell.settingsAbout],
  ['/import', shell.import, shell.importAbout],
  ['/unsent', stands.title, stands.about],
  ['/keys', shell.keys, shell.keysAbout],
] as const;

const front = [
  ['/', shell.today],
  ['/ware', shell.ware],
  ['/kilns', shell.kilns],
  ['/post', shell.post],
  ['/review', shell.review],
] as const;

export const studioName = (): string => settings.value?.studio ?? shell.name;

export function Head() {
  return (
    <header class="head">
      <FindBox />
      <a href="/index">{shell.index}</a>
    </header>
  );
}

export function Places() {
  const { path } = useLocation();
  const studio = studioName();
  return (
    <nav class="places" aria-label={shell.places}>
      <span class="studio" aria-hidden="true">
        {studio}
      </span>
      <div class="find-place">
        <FindBox />
      </div>
      <ul>
        {front.map(([href, name]) => (
          <li key={href}>
            <a href={href} aria-current={within(path, href)}>
              {name}
            </a>
          </li>
        ))}
      </ul>
      <ul class="behind" aria-label={shell.behind}>
        {behind.map(([href, name]) => (
          <li key={href}>
            <a href={href} aria-current={within(path, href)}>
              {name}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
