import { mount } from 'svelte';
import App from './app/App.svelte';
import { Desk } from './app/desk.svelte';
import { startEngines } from './app/engines';
import { Session } from './app/session.svelte';
import './app/look/base.css';

const target = document.getElementById('app');
if (!target) throw new Error('The page has no place for the app');
mount(App, { target, props: { desk: new Desk(new Session(startEngines())) } });
