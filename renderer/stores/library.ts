/** The list of chassis, and what can be done with whole chassis. */
import { type Chassis } from '@core/schema'
import type { ChassisSummary, ServiceError, Unreadable } from '@core/services'
import { defineStore } from 'pinia'
import { ref } from 'vue'
import { call } from '../client'

export const useLibrary = defineStore('library', () => {
  const chassis = ref<ChassisSummary[]>([])
  const unreadable = ref<Unreadable[]>([])
  const error = ref<ServiceError | null>(null)
  const loaded = ref(false)

  async function list(): Promise<void> {
    const answer = await call('library.list', {})
    loaded.value = true
    if (!answer.ok) { error.value = answer.error; return }
    error.value = null
    chassis.value = answer.value.chassis
    unreadable.value = answer.value.unreadable
  }

  /** Takes an exchange file's text; answers the new chassis' id, or null with `error` set. */
  async function take(text: string): Promise<string | null> {
    const answer = await call('exchange.import', { text })
    if (!answer.ok) { error.value = answer.error; return null }
    error.value = null
    return answer.value.chassisId
  }

  async function create(made: Chassis): Promise<string | null> {
    const answer = await call('library.saveChassis', { chassis: made, baseRevision: 0 })
    if (!answer.ok) { error.value = answer.error; return null }
    error.value = null
    return made.id
  }

  async function remove(chassisId: string): Promise<void> {
    const answer = await call('library.removeChassis', { chassisId })
    if (answer.ok) await list()
    else error.value = answer.error
  }

  /** Takes the copy of before a car's last change in the place of its file. */
  async function takeSpare({ spare }: Unreadable): Promise<void> {
    if (!spare) return
    const answer = await call('library.restore', { ...spare })
    if (answer.ok) await list()
    else error.value = answer.error
  }

  async function exportText(chassisId: string): Promise<{ fileName: string; text: string } | null> {
    const answer = await call('exchange.export', { chassisId })
    if (answer.ok) return answer.value
    error.value = answer.error
    return null
  }

  return { chassis, unreadable, error, loaded, list, take, create, remove, takeSpare, exportText }
})
