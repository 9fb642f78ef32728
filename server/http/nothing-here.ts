/** An address that nothing is served at, or not in the way it was asked. */
import type { OpenAPIHono } from '@hono/zod-openapi';
import type { NotFoundHandler } from 'hono';
import type { FromWhom } from './middleware/from-whom.ts';
import { problemResponse } from './problems.ts';

export function nothingHere(app: OpenAPIHono<FromWhom>): NotFoundHandler<FromWhom> {
  const routes = app.openAPIRegistry.definitions.flatMap((each) =>
    each.type === 'route' ? [each.route] : [],
  );
  const served = routes.map(({ method, path }) => ({
    method: method.toUpperCase(),
    pattern: patternOf(path),
  }));
  return (c) => {
    const here = served.filter(({ pattern }) => pattern.test(c.req.path)).map(({ method }) => method);
    if (here.length === 0) return problemResponse('not-found');
    const detail = `This address takes ${here.join(' and ')}, not ${c.req.method}.`;
    const answer = problemResponse('wrong-method', { detail });
    answer.headers.set('allow', here.join(', '));
    return answer;
  };
}

/** '/api/jobs/{job}' as a pattern. */
function patternOf(path: string): RegExp {
  const parts = path.split(/\{[^}]+\}/).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  return new RegExp(`^${parts.join('[^/]+')}$`);
}
