// node server/process/prepare.mjs <script> [arguments]: installs, generates and builds what is missing or out of date,
// and then runs the TypeScript script in the same process.
// On nothing but Node; old versions of it must be able to read this file.
const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19) || major === 21 || (major === 22 && minor < 12)) {
  console.error(
    `Reviewstand needs Node 20.19 or newer (of the 22 line: 22.12 or newer); this is ${process.versions.node}. ` +
      'Install a current one from https://nodejs.org and try again.',
  )
  process.exit(1)
}
import('./prepare-steps.mjs').then(({ prepareAndRun }) => prepareAndRun(process.argv.slice(2)))
