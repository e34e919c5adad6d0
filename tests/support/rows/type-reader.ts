import {
  type Checker,
  ElementFlags,
  SignatureKind,
  SymbolFlags,
  type TupleType,
  type Type,
  TypeFlags,
  type TypeReference,
} from 'typescript/unstable/sync'
import { type Field, INSTANCES, type InstanceName, type Shape } from './shape.ts'

/** A type whose values nothing here can tell from others. */
export class UnreadableType extends Error {}

const PLAIN: readonly [TypeFlags, Shape][] = [
  [TypeFlags.Unknown, { is: 'anything' }],
  [TypeFlags.String, { is: 'string' }],
  [TypeFlags.Number, { is: 'number' }],
  [TypeFlags.Boolean, { is: 'boolean' }],
  [TypeFlags.BigInt, { is: 'bigint' }],
  [TypeFlags.Undefined, { is: 'undefined' }],
  [TypeFlags.Null, { is: 'literal', value: null }],
  [TypeFlags.NonPrimitive, { is: 'object' }],
]

/** Turns types of TypeScript's own checker into shapes, each type once: all that were read, by their places. */
export class TypeReader {
  readonly shapes: Shape[] = []
  readonly #checker: Checker
  readonly #places = new Map<number, number>()

  constructor(checker: Checker) {
    this.#checker = checker
  }

  /**
   * The place of a type's shape.
   * @throws UnreadableType also for what the type consists of
   */
  read(type: Type): number {
    const known = this.#places.get(type.id)
    if (known !== undefined) return known
    const place = this.shapes.length
    this.#places.set(type.id, place)
    this.shapes.push({ is: 'anything' })
    try {
      this.shapes[place] = this.#shapeOf(type)
    } catch (error) {
      this.#forget(place)
      throw error
    }
    return place
  }

  /** What was read from a place on: it may hang on a type that can not be read. */
  #forget(first: number): void {
    for (const [type, place] of this.#places) if (place >= first) this.#places.delete(type)
    this.shapes.length = first
  }

  #shapeOf(type: Type): Shape {
    const plain = PLAIN.find(([flag]) => type.flags & flag)
    if (plain) return plain[1]
    if (type.isStringLiteralType() || type.isNumberLiteralType() || type.isBooleanLiteralType()) {
      return { is: 'literal', value: type.value }
    }
    if (type.isUnionType()) return { is: 'one of', of: type.getTypes().map((each) => this.read(each)) }
    if (type.isTypeReference() && this.#checker.isTupleType(type)) return this.#tupleOf(type)
    if (type.isTypeReference() && this.#checker.isArrayType(type)) {
      return { is: 'list', of: this.read(this.#checker.getTypeArguments(type)[0]!) }
    }
    if (type.isObjectType() || type.isIntersectionType()) return this.#recordOf(type)
    throw this.#unreadable(type)
  }

  #tupleOf(type: TypeReference): Shape {
    const { elementFlags } = type.getTarget() as TupleType
    const elements = this.#checker.getTypeArguments(type).map((each) => this.read(each))
    const isOpen = elementFlags.at(-1) === ElementFlags.Rest
    const fixed = isOpen ? elementFlags.slice(0, -1) : elementFlags
    if (fixed.some((each) => each !== ElementFlags.Required)) throw this.#unreadable(type)
    return { is: 'tuple', of: elements.slice(0, fixed.length), rest: isOpen ? elements.at(-1)! : null }
  }

  #recordOf(type: Type): Shape {
    const name = type.getSymbol()?.name
    if (name !== undefined && name in INSTANCES) return { is: 'instance', of: name as InstanceName }
    const isCalled = [SignatureKind.Call, SignatureKind.Construct].some(
      (kind) => this.#checker.getSignaturesOfType(type, kind).length > 0,
    )
    if (isCalled) throw this.#unreadable(type)
    const properties = this.#checker.getPropertiesOfType(type)
    const types = this.#checker.getTypeOfSymbol(properties)
    const fields = properties.map((property, place): [string, Field] => [
      property.name,
      { of: this.read(types[place]!), isOptional: (property.flags & SymbolFlags.Optional) !== 0 },
    ])
    const [index, ...further] = this.#checker.getIndexInfosOfType(type)
    if (further.length > 0) throw this.#unreadable(type)
    return { is: 'record', fields: Object.fromEntries(fields), others: index ? this.read(index.valueType) : null }
  }

  #unreadable(type: Type): UnreadableType {
    return new UnreadableType(`No shape for ${this.#checker.typeToString(type)}`)
  }
}
