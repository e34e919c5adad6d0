import type { FastifyReply } from 'fastify'

/** Answers with a file to be saved under its name. */
export const sendFile = (
  reply: FastifyReply,
  { name, type, content }: { readonly name: string; readonly type: string; readonly content: Buffer },
) =>
  reply
    .header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(name)}`)
    .type(type)
    .serializer((body: Buffer) => body as never)
    .send(content as never)
