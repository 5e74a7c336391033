/** A JSON Schema, as far as fields are looked up in it. */
interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
}

/** Names of the fields that an object at `path` may have; several where a choice of objects stands there. */
export function fieldsAt(schema: object, path: readonly PropertyKey[]): string[] {
  const reached = path.reduce<Schema[]>((schemas, key) => schemas.flatMap((one) => below(one, key)), [rootOf(schema)]);
  return [...new Set(reached.flatMap(alternatives).flatMap((one) => Object.keys(one.properties ?? {})))];
}

/**
 * Every field of a schema that holds a value and no further fields, as a dotted path; `[]` stands for the entries of a list
 * and `{}` for names that the writer chooses.
 */
export function leafFields(schema: object, above = ''): string[] {
  const own = alternatives(rootOf(schema)).flatMap((one): string[] => [
    ...Object.entries(one.properties ?? {}).flatMap(([name, field]) =>
      leafFields(field, above === '' ? name : `${above}.${name}`),
    ),
    ...(typeof one.additionalProperties === 'object' ? leafFields(one.additionalProperties, `${above}{}`) : []),
    ...(one.items === undefined ? [] : leafFields(one.items, `${above}[]`)),
  ]);
  return own.length === 0 ? [above] : [...new Set(own)];
}

function below(schema: Schema, key: PropertyKey): Schema[] {
  return alternatives(schema).flatMap((one) => {
    if (typeof key === 'number') return one.items === undefined ? [] : [one.items];
    const named = one.properties?.[String(key)];
    if (named !== undefined) return [named];
    return typeof one.additionalProperties === 'object' ? [one.additionalProperties] : [];
  });
}

function alternatives(schema: Schema): readonly Schema[] {
  return schema.anyOf === undefined ? [schema] : schema.anyOf.flatMap(alternatives);
}

/** A named schema stands among the definitions, and the document only refers to it. */
function rootOf(schema: Schema): Schema {
  const named = schema.$ref === undefined ? undefined : schema.$defs?.[schema.$ref.replace('#/$defs/', '')];
  return named ?? schema;
}
