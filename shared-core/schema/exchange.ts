/** The exchange file: one chassis with all its sessions in one JSON document. */
import { z } from 'zod'
import { chassis } from './chassis'
import { SCHEMA_VERSION } from './scalars'
import { session } from './session'

export const EXCHANGE_FORMAT = 'squatbench-exchange'

export const exchange = z
  .strictObject({
    format: z.literal(EXCHANGE_FORMAT),
    schemaVersion: z.literal(SCHEMA_VERSION),
    chassis,
    sessions: z.array(session).max(2000),
  })
  .superRefine((file, context) => {
    const firstWithId = new Map<string, number>()
    file.sessions.forEach((each, index) => {
      const first = firstWithId.get(each.id)
      if (first === undefined) firstWithId.set(each.id, index)
      else {
        context.addIssue({
          code: 'custom',
          params: { code: 'twin' },
          path: ['sessions', index, 'id'],
          message: `is the id of sessions[${first}], too; give one of them another`,
        })
      }
      if (each.chassisId !== file.chassis.id) {
        context.addIssue({
          code: 'custom',
          params: { code: 'otherChassis' },
          path: ['sessions', index, 'chassisId'],
          message: `names the chassis "${each.chassisId}", but this file holds "${file.chassis.id}"`,
        })
      }
    })
  })
export type Exchange = z.infer<typeof exchange>
