import { crc32, deflateRawSync } from 'node:zlib'

/** A zip archive of these parts, deflated; `says` overrides the unpacked size an entry states. */
export function makeZip(parts: Readonly<Record<string, string | Buffer>>, says?: number): Buffer {
  const locals: Buffer[] = []
  const central: Buffer[] = []
  let offset = 0
  for (const [name, content] of Object.entries(parts)) {
    const data = Buffer.from(content)
    const packed = deflateRawSync(data)
    const fields = Buffer.alloc(26)
    fields.writeUInt16LE(20, 0)
    fields.writeUInt16LE(8, 4)
    fields.writeUInt32LE(crc32(data), 10)
    fields.writeUInt32LE(packed.length, 14)
    fields.writeUInt32LE(says ?? data.length, 18)
    fields.writeUInt16LE(Buffer.byteLength(name), 22)
    const local = Buffer.concat([Buffer.from('PK\x03\x04'), fields, Buffer.from(name), packed])
    const rest = Buffer.alloc(14)
    rest.writeUInt32LE(offset, 10)
    central.push(Buffer.concat([Buffer.from('PK\x01\x02'), Buffer.from([20, 0]), fields, rest, Buffer.from(name)]))
    locals.push(local)
    offset += local.length
  }
  const directory = Buffer.concat(central)
  const end = Buffer.alloc(22)
  end.write('PK\x05\x06', 0, 'latin1')
  end.writeUInt16LE(central.length, 8)
  end.writeUInt16LE(central.length, 10)
  end.writeUInt32LE(directory.length, 12)
  end.writeUInt32LE(offset, 16)
  return Buffer.concat([...locals, directory, end])
}

interface SheetXml {
  /** What stands in `<sheetData>`. */
  readonly rows: string
  readonly after?: string
  readonly date1904?: boolean
  readonly doctype?: string
}

/** A workbook of one sheet "Table"; style 0 is plain, 1 a date, 2 five digits, 3 a date and time of its own. */
export function makeWorkbook({ rows, after = '', date1904 = false, doctype = '' }: SheetXml, says?: number): Buffer {
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
  const rel = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
  return makeZip(
    {
      'xl/workbook.xml': `<?xml version="1.0"?>${doctype}<workbook xmlns="${main}" xmlns:r="${rel}"><workbookPr date1904="${date1904 ? 1 : 0}"/><sheets><sheet name="Table" sheetId="1" r:id="rId1"/></sheets></workbook>`,
      'xl/_rels/workbook.xml.rels': `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
      'xl/styles.xml': `<styleSheet xmlns="${main}"><numFmts><numFmt numFmtId="170" formatCode="00000"/><numFmt numFmtId="171" formatCode="dd\\.mm\\.yyyy hh:mm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="170"/><xf numFmtId="171"/></cellXfs></styleSheet>`,
      'xl/worksheets/sheet1.xml': `<worksheet xmlns="${main}"><sheetData>${rows}</sheetData>${after}</worksheet>`,
    },
    says,
  )
}
