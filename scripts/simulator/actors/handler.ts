import { clamp, cosine, direction, lengthOf, sine, wrapAngle } from '../base/exact.ts';
import type { GroundPoint } from '../ground/equipment.ts';
import { handlerParameters, valueOf } from '../parameters.ts';

interface Turning {
  readonly begin: number;
  readonly end: number;
  readonly from: number;
  readonly by: number;
}

/** The handler: a person who runs to points, turns feet and shoulders, and is late where her legs are. */
export class Handler {
  x: number;
  y: number;
  vx = 0;
  vy = 0;
  /** Where the feet point, and where the shoulders point. */
  feet: number;
  shoulders: number;
  /** 0 arms down, 1 arm on the dog's side raised. */
  arm = 0;
  armSide: 1 | -1 = 1;
  private points: GroundPoint[] = [];
  private pace = 0;
  private feetTurn: Turning | null = null;
  private shouldersTurn: Turning | null = null;
  private slowFrom = Infinity;
  private slowTo = -Infinity;

  constructor(at: GroundPoint, facing: number) {
    this.x = at.x;
    this.y = at.y;
    this.feet = facing;
    this.shoulders = facing;
  }

  get speed(): number {
    return lengthOf(this.vx, this.vy);
  }

  get arrived(): boolean {
    return this.points.length === 0 && this.speed < 0.35;
  }

  go(points: readonly GroundPoint[], pace: number): void {
    this.points = [...points];
    this.pace = Math.min(pace, valueOf(handlerParameters.topSpeed));
  }

  /** Feet turn by `by` radians between two moments. */
  turnFeet(begin: number, end: number, by: number): void {
    this.feetTurn = { begin, end, from: this.feet, by };
  }

  turnShoulders(begin: number, end: number, by: number): void {
    this.shouldersTurn = { begin, end, from: this.shoulders, by };
  }

  slowDown(begin: number, end: number): void {
    this.slowFrom = begin;
    this.slowTo = end;
  }

  step(time: number, dt: number, lookAt: GroundPoint): void {
    const next = this.points[0];
    let wantX = 0;
    let wantY = 0;
    const p = handlerParameters;
    if (next) {
      const far = lengthOf(next.x - this.x, next.y - this.y);
      const after = this.points[1];
      if (far < (after ? 0.5 : 0.15)) this.points.shift();
      const bend = after
        ? 0.5 +
          0.5 *
            cosine(
              wrapAngle(
                direction(after.y - next.y, after.x - next.x) - direction(next.y - this.y, next.x - this.x),
              ),
            )
        : 0;
      const slowing = time >= this.slowFrom && time < this.slowTo ? 0.5 : 1;
      const corner = after ? Math.max(1.6, bend * this.pace) : 0;
      const free = Math.sqrt(corner * corner + 2 * 0.7 * valueOf(p.braking) * Math.max(far - 0.05, 0.0));
      const pace = Math.min(this.pace * slowing, free);
      if (far > 0.01) {
        wantX = ((next.x - this.x) / far) * pace;
        wantY = ((next.y - this.y) / far) * pace;
      }
    }
    const dx = wantX - this.vx;
    const dy = wantY - this.vy;
    const change = lengthOf(dx, dy);
    const forward = dx * this.vx + dy * this.vy > 0.7 * change * this.speed;
    const most = valueOf(forward ? p.acceleration : p.braking) * dt;
    const share = change > most ? most / change : 1;
    this.vx += dx * share;
    this.vy += dy * share;
    this.x += this.vx * dt;
    this.y += this.vy * dt;
    const toDog = direction(lookAt.y - this.y, lookAt.x - this.x);
    const running = this.speed > 0.5 ? direction(this.vy, this.vx) : this.feet;
    this.feet = this.turned(time, this.feetTurn, this.feet, running, dt);
    const over = clamp(wrapAngle(toDog - this.feet), -1.0, 1.0) * 0.5;
    this.shoulders = this.turned(time, this.shouldersTurn, this.shoulders, this.feet + over, dt);
    if (this.feetTurn && time > this.feetTurn.end + 0.25) this.feetTurn = null;
    if (this.shouldersTurn && time > this.shouldersTurn.end + 0.2) this.shouldersTurn = null;
    const side = wrapAngle(toDog - this.shoulders);
    if (Math.abs(Math.abs(side) - Math.PI / 2) < 1.2) this.armSide = side > 0 ? 1 : -1;
  }

  private turned(time: number, turning: Turning | null, now: number, rest: number, dt: number): number {
    const limit = valueOf(handlerParameters.turnRate) * dt;
    if (turning && time >= turning.begin) {
      const u = clamp((time - turning.begin) / (turning.end - turning.begin), 0, 1);
      return wrapAngle(turning.from + turning.by * 0.5 * (1 - cosine(Math.PI * u)));
    }
    if (turning) return now;
    return wrapAngle(now + clamp(wrapAngle(rest - now), -limit, limit));
  }

  /** Sets her down at a point, facing a way, at rest. */
  stand(at: GroundPoint, facing: number): void {
    this.x = at.x;
    this.y = at.y;
    this.vx = 0;
    this.vy = 0;
    this.feet = facing;
    this.shoulders = facing;
    this.points = [];
  }

  /** A point beside her: `side` 1 left, -1 right. */
  beside(side: 1 | -1, far: number): GroundPoint {
    return { x: this.x - side * far * sine(this.feet), y: this.y + side * far * cosine(this.feet) };
  }
}
