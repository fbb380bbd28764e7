/* prop_write.c: see prop_write.h. Thirteen digits: more than the fit is worth, enough that a second
 * machine's last bits do not show. */
#include "prop_write.h"

#include <math.h>

void fit_write_head(FILE *out)
{
    fputs("/* prop_fitted.c: the propeller constants, as fitted to measurements.\n"
          " *\n"
          " * Written by tools/fit; change that, not this. What each number is: physics/prop.h. "
          "How it\n"
          " * was found and how well it does on propellers left out: docs/decisions.md. */\n"
          "#include \"physics/prop.h\"\n",
          out);
}

static void put_numbers(FILE *out, size_t count, const double value[])
{
    fputc('{', out);
    for (size_t i = 0; i < count; i++)
        fprintf(out, "%s%.13g", i == 0 ? "" : i % 5 == 0 ? ",\n         " : ", ", value[i]);
    fputc('}', out);
}

static void put_list(FILE *out, const char *name, size_t count, const double value[])
{
    fprintf(out, "    .%s = ", name);
    put_numbers(out, count, value);
    fputs(",\n", out);
}

static bool any(size_t count, const double value[])
{
    for (size_t i = 0; i < count; i++)
        if (value[i] != 0)
            return true;
    return false;
}

static const char *const line_words[PARE_PROP_LINES] = {"UNKNOWN", "THIN",     "SLIM",   "SPORT",
                                                        "SLOW",    "PARK",     "DIRECT", "FOLDING",
                                                        "CLASSIC", "SCIMITAR", "BROAD"};

static void put_trend(FILE *out, const pare_prop_trend *trend)
{
    static const char *const lever[PARE_LEVERS] = {"TWIST",     "CHORD",    "SLOPE",
                                                   "DRAG",      "LIFT",     "CT_STILL",
                                                   "CT_MOVING", "CP_STILL", "CP_MOVING"};
    for (int l = 0; l < PARE_LEVERS; l++)
        if (any(PARE_PROP_TRAITS, trend->trait[l])) {
            fprintf(out, "    .trend.trait[PARE_LEVER_%s] =\n        ", lever[l]);
            put_numbers(out, PARE_PROP_TRAITS, trend->trait[l]);
            fputs(",\n", out);
        }
    for (int l = 0; l < PARE_LEVERS; l++)
        for (int k = 0; k < PARE_PROP_LINES; k++)
            if (any(PARE_PROP_LINE_TERMS, trend->line[l][k])) {
                fprintf(out, "    .trend.line[PARE_LEVER_%s][PARE_LINE_%s] =\n        ", lever[l],
                        line_words[k]);
                put_numbers(out, PARE_PROP_LINE_TERMS, trend->line[l][k]);
                fputs(",\n", out);
            }
    put_list(out, "trend.reynolds", sizeof trend->reynolds / sizeof(double), trend->reynolds);
}

static void put_errors(FILE *out, const pare_prop_constants *k)
{
    static const char *const state[2] = {"At rest", "Running"};
    for (int running = 0; running < 2; running++)
        fprintf(out, " * %s: CT %.1f %%, CP %.1f %%; nine tenths within %.1f and %.1f %%.\n",
                state[running], 100 * k->median[running][0], 100 * k->median[running][1],
                100 * k->ninth[running][0], 100 * k->ninth[running][1]);
}

void fit_write_set(FILE *out, const char *variable, const pare_prop_constants *k)
{
    fprintf(out, "\n/* %s.\n * Median errors on what was left out of the fit:\n", k->source);
    put_errors(out, k);
    fprintf(out,
            " * Diameters %.1f to %.1f in, pitches %.2f to %.2f diameters, Re at 0.75 R %.0f to "
            "%.0f. */\n",
            9 * exp(k->hull.low[3]), 9 * exp(k->hull.high[3]), 0.6 + k->hull.low[1],
            0.6 + k->hull.high[1], 1e5 * exp(k->hull.reynolds_low),
            1e5 * exp(k->hull.reynolds_high));
    fputs("/* clang-format off */\n", out);
    fprintf(out, "const pare_prop_constants %s = {\n    .name = \"%s\",\n    .source = \"%s\",\n",
            variable, k->name, k->source);
    const struct {
        const char *name;
        double value;
    } single[] = {{"lift_slope", k->lift_slope},
                  {"lift_slope_exponent", k->lift_slope_exponent},
                  {"zero_lift_rad", k->zero_lift_rad},
                  {"lift_most", k->lift_most},
                  {"lift_most_exponent", k->lift_most_exponent},
                  {"drag_least", k->drag_least},
                  {"drag_least_exponent", k->drag_least_exponent},
                  {"drag_curve", k->drag_curve},
                  {"drag_centre", k->drag_centre},
                  {"stall_width", k->stall_width},
                  {"plate_normal", k->plate_normal},
                  {"rotation", k->rotation},
                  {"hub", k->hub},
                  {"inner", k->inner},
                  {"loss_factor", k->loss_factor},
                  {"lift_least", k->lift_least},
                  {"mach_most", k->mach_most},
                  {"ideal_share_most", k->ideal_share_most},
                  {"chord_blades", k->chord_blades},
                  {"many_blades", k->many_blades},
                  {"chord_max_ratio", k->chord_max_ratio}};
    for (size_t i = 0; i < sizeof single / sizeof single[0]; i++)
        fprintf(out, "    .%s = %.13g,\n", single[i].name, single[i].value);
    put_list(out, "chord", 3, k->chord);
    put_list(out, "twist", 2, k->twist);
    put_list(out, "chord_shape", 5, k->chord_shape);
    put_list(out, "twist_shape", 4, k->twist_shape);
    put_trend(out, &k->trend);
    put_list(out, "hull.low", PARE_PROP_TRAITS, k->hull.low);
    put_list(out, "hull.high", PARE_PROP_TRAITS, k->hull.high);
    for (int l = 0; l < PARE_PROP_LINES; l++)
        if (any(2, k->hull.line_low[l]) || any(2, k->hull.line_high[l]))
            fprintf(out,
                    "    .hull.line_low[PARE_LINE_%s] = {%.13g, %.13g},\n"
                    "    .hull.line_high[PARE_LINE_%s] = {%.13g, %.13g},\n",
                    line_words[l], k->hull.line_low[l][0], k->hull.line_low[l][1], line_words[l],
                    k->hull.line_high[l][0], k->hull.line_high[l][1]);
    fprintf(out, "    .hull.reynolds_low = %.13g,\n    .hull.reynolds_high = %.13g,\n",
            k->hull.reynolds_low, k->hull.reynolds_high);
    for (int running = 0; running < 2; running++)
        for (int more = 0; more < 2; more++) {
            const pare_prop_doubt *d = &k->doubt[running][more];
            fprintf(out, "    .doubt[%d][%d] = {%.3f, %.3f, %.2f},\n", running, more, d->thrust_u,
                    d->power_u, d->correlation);
        }
    fprintf(out, "    .doubt_with_size = {%.13g, %.13g},\n    .doubt_with_load = %.13g,\n",
            k->doubt_with_size[0], k->doubt_with_size[1], k->doubt_with_load);
    for (int running = 0; running < 2; running++)
        fprintf(out, "    .median[%d] = {%.4f, %.4f},\n    .ninth[%d] = {%.4f, %.4f},\n", running,
                k->median[running][0], k->median[running][1], running, k->ninth[running][0],
                k->ninth[running][1]);
    fputs("};\n/* clang-format on */\n", out);
}
