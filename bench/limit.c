/*
 * The edge search once more, in plain C99: the same loop over the same tracks, for how near the one in src/geometry is to
 * what this machine can do. `limit FILE REPEATS` reads what bench/limit.ts wrote, searches all of it so many times after
 * once to warm up, compares every interval with the one found there, and prints the processor time of each repeat.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { STRIDE = 8, MOVED = 6, PACE = 7, AHEAD = 16, MOST = 256 };
static const double PAST = 2e-4, HARDLY = 1e-12, ROOT_WIDTH = 4e-5, SMALLEST_HALF = 1.0 / 64;

typedef struct { double l0, l1, w0, w1, z0, z1; } Extent;
typedef struct { double nodes, advance, perPeriod, fastest, sideways, strays; Extent a, b; double first; } Track;
typedef struct { double ul, uw, uz, u0, vl, vz, v0; } Beam;
typedef struct { double track, al, aw, az, bl, bw, bz, radius, shadowed, clearance; } Limb;
typedef struct { Beam beam; double from, to, limb, limbs, result, results; } Search;
typedef struct { double n[MOST]; int count; } List;

static const float *floats;
static double cell[9];

static double least(double a, double b) { return a < b ? a : b; }
static double most(double a, double b) { return a > b ? a : b; }

static double from_origin(double au, double av, double bu, double bv) {
  const double du = bu - au, dv = bv - av, dot = -(au * du + av * dv);
  if (dot <= 0) return sqrt(au * au + av * av);
  const double length2 = du * du + dv * dv;
  if (dot >= length2) return sqrt(bu * bu + bv * bv);
  return fabs(au * dv - av * du) / sqrt(length2);
}

static double within(double t) {
  return from_origin(cell[0] + cell[4] * t, cell[1] + cell[5] * t, cell[2] + cell[6] * t, cell[3] + cell[7] * t) - cell[8];
}

static double root_in_cell(double t0, double g0, double t1, double g1) {
  int side = 0;
  for (int i = 0; i < 100; i++) {
    const double width = t1 - t0, fall = g0 - g1;
    const double t = (i & 7) == 7 ? t0 + width / 2 : t0 + (width * g0) / fall;
    const double g = within(t);
    if (width <= ROOT_WIDTH || fabs(g) * width <= ROOT_WIDTH * fabs(fall)) return t;
    if ((g < 0) == (g1 < 0)) {
      t1 = t;
      g1 = g;
      if (side == 1) g0 /= 2;
      side = 1;
    } else {
      t0 = t;
      g0 = g;
      if (side == -1) g1 /= 2;
      side = -1;
    }
  }
  return (t0 + t1) / 2;
}

static double dip_in_cell(double t0, double g0, double t1, double g1, double movement) {
  if (fabs(g0) + fabs(g1) >= movement) return -1;
  const double t = (t0 + t1) / 2, g = within(t);
  if ((g < 0) != (g0 < 0)) return t;
  if (t1 - t0 <= SMALLEST_HALF) return -1;
  const double left = dip_in_cell(t0, g0, t, g, movement / 2);
  return left >= 0 ? left : dip_in_cell(t, g, t1, g1, movement / 2);
}

static void add_interval(List *list, double start, double end) {
  double *n = list->n;
  int i = 0;
  while (i < list->count && n[i + 1] < start) i += 2;
  int j = i;
  while (j < list->count && n[j] <= end) {
    start = least(start, n[j]);
    end = most(end, n[j + 1]);
    j += 2;
  }
  if (list->count + 2 - (j - i) > MOST) exit(3);
  memmove(n + i + 2, n + j, (size_t)(list->count - j) * sizeof *n);
  list->count += 2 - (j - i);
  n[i] = start;
  n[i + 1] = end;
}

static double top(const Extent *e, double l, double w, double z) {
  return (l > 0 ? l * e->l1 : l * e->l0) + (w > 0 ? w * e->w1 : w * e->w0) + (z > 0 ? z * e->z1 : z * e->z0);
}

static double passes(const float *ends, int nodes, double ul, double c, double per_node) {
  const int mask = nodes - 1;
  int n = (int)floor(-c / per_node);
  double u = ul * ends[(n & mask) * STRIDE] + per_node * n + c;
  while (u > 0) {
    n--;
    u = ul * ends[(n & mask) * STRIDE] + per_node * n + c;
  }
  for (;;) {
    const double next = ul * ends[((n + 1) & mask) * STRIDE] + per_node * (n + 1) + c;
    if (next > 0) return n - u / (next - u);
    u = next;
    n++;
  }
}

static void scan_limb(const Track *track, const Limb *limb, const Beam *beam, int from, int to, List *out) {
  const double threshold = limb->radius + limb->clearance;
  if (!(threshold > 0)) return;
  const double ul = beam->ul, uw = beam->uw, uz = beam->uz, vl = beam->vl, vz = beam->vz;
  const double cav = beam->v0 + vl * limb->al + vz * limb->az;
  const double cbv = beam->v0 + vl * limb->bl + vz * limb->bz;
  const float *ends = floats + (size_t)track->first;
  const int nodes = (int)track->nodes;
  if (vl == 0) {
    if (cav + track->a.z0 > threshold && cbv + track->b.z0 > threshold) return;
    if (cav + track->a.z1 < -threshold && cbv + track->b.z1 < -threshold) return;
    if (limb->shadowed == 1 && ul == 0) return;
    const double per_node = (uw * track->advance) / nodes;
    if (cav + track->a.z1 <= 0 && cbv + track->b.z0 >= 0 && limb->al == limb->bl && limb->aw == limb->bw &&
        fabs(ul) * track->sideways < per_node / 2) {
      const double c = beam->u0 + ul * limb->al + uw * limb->aw + uz * limb->az;
      const double start = most(from, passes(ends, nodes, ul, c + threshold, per_node));
      const double end = least(to, passes(ends, nodes, ul, c - threshold, per_node));
      if (start < end) add_interval(out, start, end);
      return;
    }
  }
  const double cau = beam->u0 + ul * limb->al + uw * limb->aw + uz * limb->az;
  const double cbu = beam->u0 + ul * limb->bl + uw * limb->bw + uz * limb->bz;
  const double u_most = most(cau + top(&track->a, ul, uw, uz), cbu + top(&track->b, ul, uw, uz));
  const double u_least = least(cau - top(&track->a, -ul, -uw, -uz), cbu - top(&track->b, -ul, -uw, -uz));
  int first = from, last = to, mask = -1, shift = 31;
  if (track->advance > 0) {
    const double per_unit = nodes / (track->advance * uw);
    first = (int)most(first, floor((-threshold - u_most) * per_unit));
    last = (int)least(last, ceil((threshold - u_least) * per_unit));
    mask = nodes - 1;
    for (shift = 0; 1 << shift < nodes;) shift++;
  } else if (u_least > threshold || u_most < -threshold) return;
  if (first >= last) return;

  const double per_fastest = 1 / track->fastest, u_turn = track->advance * uw;
  const double past = uz == 0 ? threshold + fabs(ul) * track->strays + PAST : INFINITY;
  double found[MOST], start = NAN, d = 0, au = 0, av = 0, bu = 0, bv = 0, moved = 0;
  int f = 0, c = 0, n = first, m = first, afresh = 1;
  const int covered = out->count;
  for (;;) {
    const float *at = ends + (m & mask) * STRIDE;
    const int turn = m >> shift;
    const double tu = turn * u_turn;
    const double nau = ul * at[0] + uw * at[1] + uz * at[2] + cau + tu;
    const double nav = vl * at[0] + vz * at[2] + cav;
    const double nbu = ul * at[3] + uw * at[4] + uz * at[5] + cbu + tu;
    const double nbv = vl * at[3] + vz * at[5] + cbv;
    const double moved_by = at[MOVED] + turn * track->perPeriod;
    const double next = from_origin(nau, nav, nbu, nbv) - threshold;
    if (afresh) {
      start = next < 0 ? m : NAN;
      afresh = 0;
    } else if (m == n + 1) {
      const int broken = start == start, crossed = (next < 0) == !broken;
      const double movement = moved_by - moved;
      if (crossed || fabs(d) + fabs(next) < movement) {
        const double into[9] = {au, av, bu, bv, nau - au, nav - av, nbu - bu, nbv - bv, threshold};
        memcpy(cell, into, sizeof cell);
        if (f + 4 > MOST) exit(3);
        if (crossed) {
          const double root = n + root_in_cell(0, d, 1, next);
          if (broken) {
            found[f++] = start;
            found[f++] = root;
            start = NAN;
          } else start = root;
        } else {
          const double t = dip_in_cell(0, d, 1, next, movement);
          if (t >= 0) {
            const double g = broken ? HARDLY : -HARDLY;
            const double there = n + root_in_cell(0, d, t, g), back = n + root_in_cell(t, g, 1, next);
            found[f++] = broken ? start : there;
            found[f++] = broken ? there : back;
            if (broken) start = back;
          }
        }
      }
    }
    n = m;
    d = next;
    au = nau;
    av = nav;
    bu = nbu;
    bv = nbv;
    moved = moved_by;
    if (n >= last || (au > past && bu > past)) break;
    while (c < covered && out->n[c + 1] <= n) c += 2;
    if (c < covered && out->n[c] <= n && out->n[c + 1] >= n + 2) {
      if (start == start) {
        found[f++] = start;
        found[f++] = n;
      }
      m = (int)least(floor(out->n[c + 1]), last);
      afresh = 1;
      continue;
    }
    const double gap = fabs(d);
    const double reach = gap * ends[(n & mask) * STRIDE + PACE];
    if (reach < 2) {
      m = n + 1;
      continue;
    }
    const int sure = (int)(gap * per_fastest), likely = (int)reach;
    const int near = likely < AHEAD ? likely : AHEAD;
    m = n + (sure > near ? sure : near);
    if (m > last) m = last;
  }
  if (start == start && last > start) {
    found[f++] = start;
    found[f++] = last;
  }
  for (int i = 0; i < f; i += 2) add_interval(out, found[i], found[i + 1]);
}

/* Header: how many tracks, searches, limbs, results and floats; then they, all but the floats as doubles. */
int main(int argc, char **argv) {
  if (argc != 3) return 2;
  FILE *file = fopen(argv[1], "rb");
  double head[5];
  if (!file || fread(head, sizeof *head, 5, file) != 5) return 2;
  const size_t tracks = (size_t)head[0], searches = (size_t)head[1], limbs = (size_t)head[2], results = (size_t)head[3];
  Track *track = malloc(tracks * sizeof *track);
  Search *search = malloc(searches * sizeof *search);
  Limb *limb = malloc(limbs * sizeof *limb);
  double *result = malloc((results + 1) * sizeof *result);
  float *ends = malloc((size_t)head[4] * sizeof *ends);
  if (!track || !search || !limb || !result || !ends) return 2;
  if (fread(track, sizeof *track, tracks, file) != tracks || fread(search, sizeof *search, searches, file) != searches ||
      fread(limb, sizeof *limb, limbs, file) != limbs || fread(result, sizeof *result, results, file) != results ||
      fread(ends, sizeof *ends, (size_t)head[4], file) != (size_t)head[4])
    return 2;
  fclose(file);
  floats = ends;
  static List list;
  for (int repeat = -1; repeat < atoi(argv[2]); repeat++) {
    size_t wrong = 0;
    const clock_t start = clock();
    for (size_t s = 0; s < searches; s++) {
      const Search *one = search + s;
      list.count = 0;
      for (size_t i = 0; i < (size_t)one->limbs; i++) {
        const Limb *l = limb + (size_t)one->limb + i;
        scan_limb(track + (size_t)l->track, l, &one->beam, (int)one->from, (int)one->to, &list);
      }
      if (list.count != (int)one->results) wrong++;
      else
        for (int i = 0; i < list.count; i++) wrong += fabs(list.n[i] - result[(size_t)one->result + (size_t)i]) > 1e-6;
    }
    if (wrong > 0) {
      fprintf(stderr, "%zu of %zu searches differ\n", wrong, searches);
      return 1;
    }
    if (repeat >= 0) printf("%.9f\n", (double)(clock() - start) / CLOCKS_PER_SEC);
  }
  return 0;
}
