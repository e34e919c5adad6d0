/**
 * Something the person who starts the program can put right. The message says in plain words what is wrong and what to
 * do about it; it is shown without a stack trace. `cause` is kept for LOG_LEVEL=debug.
 */
export class StartProblem extends Error {
  override name = 'StartProblem'
}
