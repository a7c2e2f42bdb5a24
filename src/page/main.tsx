import { render } from 'preact';
import './style/tokens.css';
import './style/base.css';
import './style/parts.css';
import './style/shell.css';
import { App } from './shell/app.tsx';

const place = document.getElementById('page');
if (!place) throw new Error('The page has no place to stand in.');
render(<App />, place);
