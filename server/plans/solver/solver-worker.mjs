// A worker thread of Node does not inherit the loader of TypeScript, so it registers its own.
import { register } from 'tsx/esm/api'

register()
await import('./solver-thread.ts')
