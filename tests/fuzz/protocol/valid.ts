import { Ajv, type ValidateFunction } from "ajv";
import type { Answers } from "./answers";
import schema from "./schema.json" with { type: "json" };

const ajv = new Ajv({ allowUnionTypes: true });
ajv.addSchema(schema, "protocol");
const known = new Map<string, ValidateFunction | null>();

export const protocolVersion = schema.$comment.split(" ").at(-1);

/** What in an answer, or in a message that the server sent, is not as the protocol has it; null where all is. */
export function faultIn(method: string, message: unknown): string | null {
  const validate = validatorOf(method);
  if (validate === null || validate(message)) return null;
  return ajv.errorsText(validate.errors);
}

/** Requests that only our own client makes are not in the protocol. */
function validatorOf(method: string): ValidateFunction | null {
  const pointer = encodeURIComponent(method.replaceAll("/", "~1"));
  const found = known.get(method) ?? ajv.getSchema(`protocol#/definitions/Answers/properties/${pointer}`);
  known.set(method, found ?? null);
  return found ?? null;
}

/** The methods whose messages are held against the protocol. */
export const methods = Object.keys(schema.definitions.Answers.properties) as (keyof Answers)[];
