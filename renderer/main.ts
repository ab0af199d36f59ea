import { createPinia } from 'pinia'
import { createApp } from 'vue'
import AppShell from './AppShell.vue'
import './look/tokens.css'
import './look/base.css'
import './look/forced.css'
import './look/print.css'
import { useFaces } from './look/faces'
import { vFold } from './parts/fold'
import { router } from './router'
import { usePreferences } from './stores/preferences'
import { words } from './words'

const app = createApp(AppShell)
app.use(createPinia())
app.use(words)
app.use(router)
app.directive('fold', vFold)
void usePreferences().read()
await useFaces()
app.mount('#app')
