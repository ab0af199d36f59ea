/** `npm run schema`: writes the exchange file's JSON Schema. */
import { writeFileSync } from 'node:fs'
import { exchangeSchemaText, SCHEMA_FILE } from './exchangeSchema'

writeFileSync(new URL(`../../${SCHEMA_FILE}`, import.meta.url), exchangeSchemaText())
console.log(SCHEMA_FILE)
