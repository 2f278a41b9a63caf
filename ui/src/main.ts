import { mount } from 'svelte'
import './style/base.css'
import App from './App.svelte'
import { session } from './state/session.svelte'

void session.start()
const target = document.getElementById('page')
if (!target) throw new Error('the page has no place to stand')
mount(App, { target })
