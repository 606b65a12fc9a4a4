import { isLoop, type Loop, type Run, type Strip, type StripNode } from "./strip";

/**
 * Neighbours of one kind drawn together, loops of one kind flattened, and what comes again drawn into
 * loops that begin as early as they can. Rows that leave the same places mostly leave the same strip,
 * and a strip does not fray where one row after another is worked along it.
 */
export function tidy(nodes: Strip): Strip {
  const out: StripNode[] = [];
  for (const node of merge(nodes)) push(out, node);
  return out;
}

function merge(nodes: Strip): Strip {
  const out: StripNode[] = [];
  for (const node of nodes.flatMap(simplify)) {
    const last = out.at(-1);
    if (last && !isLoop(last) && !isLoop(node) && goesOn(last, node))
      out[out.length - 1] = { ...last, n: last.n + node.n };
    else out.push(node);
  }
  return out;
}

function simplify(node: StripNode): Strip {
  if (!isLoop(node)) return node.n > 0 ? [node] : [];
  const body = tidy(node.body);
  const [only] = body;
  if (only === undefined || node.times <= 0) return [];
  if (node.times === 1) return body;
  if (body.length > 1) return [{ body, times: node.times }];
  if (isLoop(only)) return [{ body: only.body, times: only.times * node.times }];
  const whole = only.size === undefined || only.n % only.size === 0;
  return whole ? [{ ...only, n: only.n * node.times }] : [{ body, times: node.times }];
}

function alike(a: Run, b: Run): boolean {
  return (
    a.sort === b.sort &&
    a.kind === b.kind &&
    a.chains === b.chains &&
    a.halves === b.halves &&
    a.unit === b.unit &&
    a.size === b.size
  );
}

/** One run goes on where the other ends: within a group, with its next place. */
function goesOn(a: Run, b: Run): boolean {
  return alike(a, b) && (a.size === undefined || ((a.offset ?? 0) + a.n) % a.size === b.offset);
}

function push(out: StripNode[], node: StripNode): void {
  if (isLoop(node)) pushLoop(out, node);
  else out.push(node);
  foldEnd(out);
}

/** A loop takes in what comes before it, where that is more of the same. */
function pushLoop(out: StripNode[], { body, times }: Loop): void {
  const before = out.at(-1);
  if (before && isLoop(before) && equal(before.body, body)) {
    out[out.length - 1] = { body, times: before.times + times };
  } else if (endsWith(out, body)) {
    out.length -= body.length;
    pushLoop(out, { body, times: times + 1 });
  } else if (before && equal([before], body.slice(-1))) {
    out.pop();
    pushLoop(out, { body: [before, ...body.slice(0, -1)], times });
    push(out, before);
  } else out.push({ body, times });
}

/** The nodes at the end, where they are one more pass of the loop before them or come twice. */
function foldEnd(out: StripNode[]): void {
  for (let n = 1; n < out.length && n <= longestBody; n++) {
    const end = out.slice(-n);
    const before = out[out.length - n - 1] as StripNode;
    const again = isLoop(before) && equal(before.body, end);
    if (!again && !(n > 1 && endsWith(out.slice(0, -n), end))) continue;
    out.length -= again ? n + 1 : 2 * n;
    return pushLoop(out, { body: end, times: again ? before.times + 1 : 2 });
  }
}

/** Nodes; what comes again after more of them is left as it is. */
const longestBody = 24;

function endsWith(nodes: Strip, end: Strip): boolean {
  return nodes.length >= end.length && equal(nodes.slice(-end.length), end);
}

function equal(some: Strip, others: Strip): boolean {
  return some.length === others.length && some.every((node, i) => same(node, others[i] as StripNode));
}

function same(a: StripNode, b: StripNode): boolean {
  if (isLoop(a)) return isLoop(b) && a.times === b.times && equal(a.body, b.body);
  return !isLoop(b) && a.n === b.n && a.offset === b.offset && alike(a, b);
}
