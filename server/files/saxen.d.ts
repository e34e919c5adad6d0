declare module 'saxen' {
  type Decode = (text: string) => string

  /** A SAX parser that is fed in pieces. */
  export class Parser {
    on(hook: 'openTag', does: (name: string, attributes: () => Record<string, string>, decode: Decode) => void): this
    on(hook: 'closeTag', does: (name: string) => void): this
    on(hook: 'text', does: (text: string, decode: Decode) => void): this
    on(hook: 'cdata', does: (text: string) => void): this
    on(hook: 'attention', does: (text: string) => void): this
    on(hook: 'error', does: (error: Error) => void): this
    write(piece: string): this
    end(): void
  }
}
