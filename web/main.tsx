import './look/tokens.css';
import './look/type.css';
import './look/frame.css';
import './look/ledger.css';
import './look/forms.css';
import './look/paper.css';
import { render } from 'preact';
import { App } from './app/app.tsx';

render(<App />, document.getElementById('page')!);
