import { StartProblem } from '../../config/start-problem.ts'

/** Runs a command to its end and ends the process: 0, or what the work has set; 1 when what is wrong can be put right; 2 when we did not expect it. */
export function runCommand(work: (say: (line: string) => void) => Promise<void>): void {
  work((line) => console.log(line)).then(
    () => process.exit(process.exitCode ?? 0),
    (error: unknown) => {
      console.error(error instanceof Error ? error.message : error)
      process.exit(error instanceof StartProblem ? 1 : 2)
    },
  )
}
