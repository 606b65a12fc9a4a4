import {
  countPlaces,
  isLoop,
  keyOf,
  type Loop,
  placeAt,
  type Run,
  runsOf,
  type Strip,
  type StripNode,
  slice,
} from "./strip";
import { tidy } from "./tidy";

/** Groups with more places than this are not told place by place. */
const largestGroup = 64;

/** Marks the places of one group worked into one place; a group too large to be listed stays without its size. */
export function asGroup(nodes: Strip, unit: string): Strip {
  const size = countPlaces(nodes);
  if (size > largestGroup) return nodes;
  let offset = 0;
  return tidy(listed(nodes)).flatMap((node): StripNode[] => {
    if (isLoop(node)) return [node];
    const run = { ...node, unit, size, offset };
    offset += node.n;
    return [run];
  });
}

/** Loops written out, and groups within the group forgotten. */
function listed(nodes: Strip): Run[] {
  return nodes.flatMap((node) => {
    if (isLoop(node)) return [...Array(node.times).keys()].flatMap(() => listed(node.body));
    const { unit: _, size: __, offset: ___, ...run } = node;
    return [run];
  });
}

/** Equal for groups of the same stitches and spaces in the same order. */
export function shapeOf(nodes: Strip): string {
  return countPlaces(nodes) > largestGroup ? keyOf(nodes) : keyOf(tidy(listed(nodes)));
}

/** Whether there are loops that something holds together in their middle. */
export function hasHalves(strip: Strip): boolean {
  return runsOf(strip).some((run) => run.halves !== undefined);
}

/** Such loops as the chain spaces that they are made of. */
export function halvesApart(strip: Strip): Strip {
  return strip.map((node) => {
    if (isLoop(node)) return { ...node, body: halvesApart(node.body) };
    const { halves, ...run } = node;
    return halves === undefined
      ? node
      : { ...run, n: run.n * halves, chains: Math.floor((run.chains ?? 1) / halves) };
  });
}

/** Groups looked at place by place, so that their middle and their single stitches can be told. */
export function groupsApart(strip: Strip): Strip {
  let stitchesBefore = 0;
  const apart = (nodes: Strip): Strip =>
    nodes.flatMap((node): Strip => {
      if (isLoop(node)) return [{ ...node, body: apart(node.body) }];
      const { size, offset = 0 } = node;
      if (size === undefined) return [node];
      const single = (at: number): Run => {
        if (at === 0) stitchesBefore = 0;
        const nth = node.sort === "stitch" ? { nth: ++stitchesBefore } : {};
        const middle = 2 * at + 1 === size ? { middle: true } : {};
        return { ...node, n: 1, offset: at, ...nth, ...middle };
      };
      const pass = [...Array(Math.min(node.n, size)).keys()].map((i) => single((offset + i) % size));
      const [times, rest] = [Math.floor(node.n / size), node.n % size];
      if (node.n <= size) return pass;
      return [{ body: pass, times }, ...pass.slice(0, rest)];
    });
  return apart(strip);
}

function endsGroup(last: Run | undefined): boolean {
  return last?.size !== undefined && last.size > 1 && last.offset === last.size - 1;
}

/** Two stitches at an edge, before the first group or behind the last one, as a group of their own. */
export function edgePairsAsGroups(strip: Strip): Strip {
  const total = countPlaces(strip);
  const isGroup = (at: number): boolean => (placeAt(strip, at)?.size ?? 0) > 1;
  const pairs = (one: number, two: number, three: number): boolean =>
    !isGroup(one) && !isGroup(two) && isGroup(three);
  const from = pairs(0, 1, 2) ? 2 : 0;
  const to = pairs(total - 1, total - 2, total - 3) ? total - 2 : total;
  if (from === 0 && to === total) return strip;
  const edge = (nodes: Strip): Strip => (countPlaces(nodes) > 0 ? asGroup(nodes, "") : nodes);
  return [...edge(slice(strip, 0, from)), ...slice(strip, from, to), ...edge(slice(strip, to, total))];
}

/** Beside them the spaces between the stitches at the edges and the groups next to them. */
export function edgeGapsApart(strip: Strip): Strip {
  const total = countPlaces(strip);
  const isGroup = (at: number): boolean => (placeAt(strip, at)?.size ?? 0) > 1;
  const gap: Run = { sort: "space", kind: "edge gap", n: 1, chains: 0 };
  const opens = !isGroup(0) && isGroup(1) ? [gap] : [];
  const closes = !isGroup(total - 1) && isGroup(total - 2) ? [gap] : [];
  if (total < 3) return strip;
  const [first, middle, last] = [
    slice(strip, 0, 1),
    slice(strip, 1, total - 1),
    slice(strip, total - 1, total),
  ];
  return [...first, ...opens, ...middle, ...closes, ...last];
}

/** Groups side by side with the space between them told as a place. */
export function gapsApart(strip: Strip, inRound: boolean): Strip {
  const gap: Run = { sort: "space", kind: "gap", n: 1, chains: 0 };
  let before = inRound && endsGroup(placeAt(strip, countPlaces(strip) - 1));
  const apart = (nodes: Strip): Strip =>
    nodes.flatMap((node): Strip => {
      if (isLoop(node)) return apartLoop(node);
      const { size, offset = 0 } = node;
      if (size === undefined || size < 2) {
        before = false;
        return [node];
      }
      const led = before && offset === 0 ? [gap] : [];
      before = (offset + node.n) % size === 0;
      const groups = Math.floor(node.n / size);
      if (groups < 2 || offset > 0) return [...led, node];
      const one: Run = { ...node, n: size };
      return [...led, one, { body: [gap, one], times: groups - 1 }];
    });
  /** The first pass may follow something else than the later ones do. */
  const apartLoop = (loop: Loop): Strip => {
    const first = apart(loop.body);
    if (loop.times === 1) return first;
    return [...first, { body: apart(loop.body), times: loop.times - 1 }];
  };
  return apart(strip);
}
