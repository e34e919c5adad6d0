/** Shows on a terminal how far something is; into a file or pipe it says nothing. */
export function formatProgress(what: string): (done: number, all: number) => void {
  if (!process.stdout.isTTY) return () => {}
  return (done, all) => {
    const share = all === 0 ? 100 : Math.floor((done / all) * 100)
    process.stdout.write(`\r${what}: ${share} %${done >= all ? '\n' : ''}`)
  }
}
