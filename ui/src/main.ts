import { mount } from 'svelte'
import './style/base.css'
import App from './App.svelte'
import { session } from './state/session.svelte'
import { words } from './words'

document.documentElement.lang = words.locale
void session.start()
const target = document.getElementById('page')
if (!target) throw new Error('the page has no place to stand')
mount(App, { target })
