import { mount } from 'svelte';
import App from './App.svelte';
import { live } from './api/live.svelte';
import './look/fonts.css';
import './look/tokens.css';
import './look/ages.css';
import './look/base.css';
import { router } from './route/router.svelte';
import { settings } from './settings/settings.svelte';
import { sitting } from './sitting/sitting.svelte';

settings.start();
router.start();
live.start();
sitting.start();

const page = document.getElementById('page');
if (!page) throw new Error('index.html has no #page');
mount(App, { target: page });
