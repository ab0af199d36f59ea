/** The exchange file's JSON Schema, made from the zod source: what other programs check their files against. */
import { z } from 'zod'
import * as documents from '@core/schema'

/** Where the published schema lies, from the root of the project. */
export const SCHEMA_FILE = 'docs/exchange.schema.json'

/**
 * The schema as JSON text (JSON Schema 2020-12). Rules between fields (a session names the chassis of
 * its file, a name holds no control characters) are beyond it; the program checks those, too.
 */
export function exchangeSchemaText(): string {
  const { $schema, ...rest } = z.toJSONSchema(documents.exchange, {
    target: 'draft-2020-12', io: 'input', metadata: namedParts(),
  })
  const schema = {
    $schema,
    title: `Squatbench exchange file, version ${documents.SCHEMA_VERSION}`,
    description: 'One chassis with all its sessions. SI units; lengths on the car in mm; each key names its unit.',
    ...rest,
  }
  return `${JSON.stringify(schema, null, 1)}\n`
}

/** Each part of the documents under its name in the source, so that the published schema reads like it. */
function namedParts(): z.core.$ZodRegistry<{ id: string }> {
  const registry = z.registry<{ id: string }>()
  for (const [name, part] of Object.entries(documents)) {
    if (part instanceof z.ZodType && part !== documents.exchange) registry.add(part, { id: name })
  }
  return registry
}
