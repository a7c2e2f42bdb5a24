import { render } from 'preact';
import './style/tokens.css';
import './style/base.css';
import './style/parts.css';
import './style/fields.css';
import './style/shell.css';
import './shell/entrance.css';
import { App } from './shell/app.tsx';
import { placeOf } from './shell/place.ts';
import { SECTIONS } from './shell/sections.ts';

// The section that is looked at is fetched while the service is asked who is here.
const { section } = placeOf(location.hash);
SECTIONS.find(({ id }) => id === section)
  ?.load()
  .catch(() => undefined);

const place = document.getElementById('page');
if (!place) throw new Error('The page has no place to stand in.');
render(<App />, place);
