/* peer MODE RATE FILE: measures raw interleaved stereo doubles with libebur128 and prints
   CPU seconds, integrated loudness, loudness range, true peak, largest M and S.
   MODE: levels (I, LRA, true peak) or windows (largest M and S at 100 ms steps besides). */
#include <ebur128.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static double cpu(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec + t.tv_nsec * 1e-9;
}

int main(int argc, char **argv) {
  if (argc != 4) {
    fprintf(stderr, "use: peer levels|windows RATE FILE\n");
    return 2;
  }
  int windows = !strcmp(argv[1], "windows");
  unsigned long rate = strtoul(argv[2], NULL, 10);
  FILE *file = fopen(argv[3], "rb");
  if (!file) {
    perror(argv[3]);
    return 1;
  }
  fseek(file, 0, SEEK_END);
  size_t frames = ftell(file) / (2 * sizeof(double));
  rewind(file);
  double *x = malloc(frames * 2 * sizeof *x);
  if (fread(x, 2 * sizeof *x, frames, file) != frames) return 1;
  fclose(file);

  double best = HUGE_VAL, loudness = 0, range = 0, peak = 0, m = -HUGE_VAL, s = -HUGE_VAL;
  for (int run = 0; run < 3; run++) {
    double begin = cpu();
    ebur128_state *e = ebur128_init(2, rate, EBUR128_MODE_I | EBUR128_MODE_LRA | EBUR128_MODE_S |
                                                 EBUR128_MODE_TRUE_PEAK);
    size_t hop = rate / 10;
    for (size_t at = 0; at < frames; at += hop) {
      size_t n = frames - at < hop ? frames - at : hop;
      ebur128_add_frames_double(e, x + 2 * at, n);
      double v;
      if (windows && n == hop && at + n >= 4 * hop) {
        ebur128_loudness_momentary(e, &v);
        if (v > m) m = v;
      }
      if (windows && n == hop && at + n >= 30 * hop) {
        ebur128_loudness_shortterm(e, &v);
        if (v > s) s = v;
      }
    }
    ebur128_loudness_global(e, &loudness);
    ebur128_loudness_range(e, &range);
    peak = 0;
    for (int c = 0; c < 2; c++) {
      double v;
      ebur128_true_peak(e, c, &v);
      if (v > peak) peak = v;
    }
    double took = cpu() - begin;
    if (took < best) best = took;
    ebur128_destroy(&e);
  }
  printf("%.4f %.4f %.4f %.4f %.4f %.4f\n", best, loudness, range, 20 * log10(peak), m, s);
  return 0;
}
