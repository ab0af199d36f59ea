/** The name of a mark in words. */
import type { ComposerTranslation } from 'vue-i18n'
import type { Slot } from './slots'

export const nameOfSlot = ({ role, corner, index }: Slot, t: ComposerTranslation): string => (corner
  ? t('camera.atCorner', { role: t(`camera.role.${role}`), corner: t(`parts.corner.${corner}`) })
  : t(`camera.role.${role}`, { count: index + 1 }))
