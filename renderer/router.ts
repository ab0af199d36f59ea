/** Which address shows which screen. The hash works alike under the custom scheme and the loopback host. */
import { createRouter, createWebHashHistory, type RouteRecordRaw } from 'vue-router'
import { STEPS } from './paths/steps'

const routes: RouteRecordRaw[] = [
  { path: '/', name: 'library', component: () => import('./screens/library/LibraryScreen.vue') },
  ...STEPS.map((step) => ({ path: `/car/:chassisId/${step.name}`, name: step.name, component: step.screen })),
  {
    path: '/car/:chassisId/overview', name: 'overview', component: () => import('./screens/overview/OverviewScreen.vue'),
  },
  { path: '/car/:chassisId/live', name: 'live', component: () => import('./screens/live/LiveScreen.vue') },
  { path: '/help', name: 'help', component: () => import('./screens/help/HelpScreen.vue') },
  { path: '/preferences', name: 'preferences', component: () => import('./screens/preferences/PreferencesScreen.vue') },
  { path: '/:rest(.*)*', redirect: '/' },
]

export const router = createRouter({ history: createWebHashHistory(), routes })
