import { register } from 'tsx/esm/api'

// A thread does not take over from its process how TypeScript is read.
register()
await import('./reader.ts')
