const OUR_PORT = 4180

/** Where a server listens that is started beside the demo. In: the port in the demo's address; '' where a proxy hides it. */
export const portBeside = (port: string): number => (port === '' ? OUR_PORT : Number(port)) + 1

/** Commands that start an empty server beside the demo, in its folder: for the shells of Linux and macOS, and for PowerShell. */
export const ownUnitCommands = (port: string): { shell: string; powerShell: string } => {
  const beside = portBeside(port)
  return {
    shell: `REVIEWSTAND_DATA=own-unit REVIEWSTAND_DEMO=off PORT=${beside} npm start`,
    powerShell: `$env:REVIEWSTAND_DATA='own-unit'; $env:REVIEWSTAND_DEMO='off'; $env:PORT='${beside}'; npm start`,
  }
}
