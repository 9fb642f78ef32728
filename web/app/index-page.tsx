import { shell } from '../words/shell.ts';
import { Page } from './page.tsx';
import { behind } from './places.tsx';

export default function Index() {
  return (
    <Page title={shell.index}>
      <p class="lead">{shell.indexLead}</p>
      <ul class="ledger">
        {behind.map(([href, name, about]) => (
          <li key={href} class="whole">
            <div class="in-margin">
              <a class="reach" href={href}>
                <strong>{name}</strong>
              </a>
            </div>
            <div class="line">{about}</div>
          </li>
        ))}
      </ul>
    </Page>
  );
}
