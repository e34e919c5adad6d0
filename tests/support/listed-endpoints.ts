import fs from 'node:fs'
import path from 'node:path'

const contract = path.resolve(import.meta.dirname, '../../server/contract')

export interface ListedEndpoint {
  readonly subject: string
  readonly name: string
  /** As "GET /api/things/:id". */
  readonly operation: string
}

/** Every endpoint that the contract lists, read from its text. */
export function listedEndpoints(): ListedEndpoint[] {
  return fs
    .readdirSync(contract, { recursive: true, encoding: 'utf8' })
    .filter((file) => path.basename(file) === 'endpoints.ts')
    .flatMap((file) =>
      [
        ...fs
          .readFileSync(path.join(contract, file), 'utf8')
          .matchAll(/^export const (\w+) =\s+'([^']+)' as Endpoint\b/gm),
      ].map(([, name, operation]) => ({ subject: path.dirname(file), name: name!, operation: operation! })),
    )
}
