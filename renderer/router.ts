/** Which address shows which screen. The hash works alike under the custom scheme and the loopback host. */
import { shallowRef, type Component } from 'vue'
import { createRouter, createWebHashHistory, type RouteRecordRaw } from 'vue-router'
import { ADDRESSES } from './paths/addresses'

/** Each screen by its folder's name; fetched when first shown. */
const screens = import.meta.glob<{ default: Component }>('./screens/*/*Screen.vue')
const screenOf = (name: string) => screens[`./screens/${name}/${name[0]!.toUpperCase()}${name.slice(1)}Screen.vue`]!

const routes: RouteRecordRaw[] = [
  ...Object.entries(ADDRESSES).map(([name, path]) => ({ path, name, component: screenOf(name) })),
  { path: '/:rest(.*)*', redirect: '/' },
]

export const router = createRouter({ history: createWebHashHistory(), routes })

/** A page whose program text could not be fetched: where it was to go, until another one is shown. */
export const notFetched = shallowRef<string | null>(null)
router.onError((_error, to) => { notFetched.value = to.fullPath })
router.afterEach((_to, _from, failure) => { if (!failure) notFetched.value = null })
