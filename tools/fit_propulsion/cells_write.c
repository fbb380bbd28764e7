/* cells_write.c: the constants as a C source, in the project's own format, so that a fit that finds the
 * same writes the same file. */
#include "cells_report.h"

enum { LINE = 100 };

static const struct {
    const char *name, *words;
} chemistry[PARE_CHEMISTRIES] = {
    [PARE_LIPO] =
        {"PARE_LIPO",
         "Open-circuit volts: two pouch cells, 7.5 Ah (Ecker et al., J. Electrochem. Soc. 162\n"
         "     * (2015) A1849) and the upper quarter of 2.28 Ah (Ai et al. 2019). Extrapolated: "
         "all of the\n"
         "     * resistance, which is the trade's estimate for flight packs; these two pouch cells "
         "have\n"
         "     * some ten times that, and small flight packs were measured at 45 to 57 mohm Ah. A\n"
         "     * charger's reading is worth far more."},
    [PARE_LIHV] = {"PARE_LIHV",
                   "No open measurement: an engineering estimate, resistance as lithium-polymer."},
    [PARE_LIION] = {"PARE_LIION",
                    "Three INR18650-30Q (ARTS Laboratory, University of South Carolina), C/10 to 3 "
                    "C in air of\n"
                    "     * 23 degC, and one NCR18650PF (Kollmeyer, Mendeley Data, 2018), C/20, 1 "
                    "C and pulses. Below\n"
                    "     * 20 degC it rests on one figure: 2.5 times the resistance at 0 degC."},
    [PARE_LIION_POWER] =
        {"PARE_LIION_POWER",
         "As lithium-ion, with the resistance of a 21700 power cell: 30 mohm Ah in pulses of "
         "seconds.\n"
         "     * Extrapolated: its open-circuit volts, and the slow part of its resistance."},
};

static void put_cell(FILE *out, int kind, const pare_cell *c)
{
    fprintf(out, "    /* %s */\n", chemistry[kind].words);
    const int indent = fprintf(out, "    [%s] = {", chemistry[kind].name);
    const int inner = indent + fprintf(out, ".open_v = {");
    int column = inner;
    for (int i = 0; i < PARE_PACK_KNOTS; i++) {
        const bool last = i + 1 == PARE_PACK_KNOTS;
        const int width = snprintf(NULL, 0, "%.3f", c->open_v[i]) + (last ? 3 : 1);
        if (i > 0 && column + 1 + width > LINE)
            column = fprintf(out, "\n%*s", inner, "") - 1;
        else if (i > 0)
            column += fprintf(out, " ");
        column += fprintf(out, "%.3f%s", c->open_v[i], last ? "},\n" : ",");
    }
    const struct {
        const char *name;
        double value;
    } field[] = {{"ohm_ah", c->ohm_ah},
                 {"rise", c->rise},
                 {"rise_charge", c->rise_charge},
                 {"slow", c->slow},
                 {"slow_s", c->slow_s},
                 {"warm_share", c->warm_share},
                 {"activation_k", c->activation_k},
                 {"heat_j_per_k_ah", c->heat_j_per_k_ah},
                 {"cooling_s", c->cooling_s},
                 {"ac_share", c->ac_share},
                 {"ac_share_u", c->ac_share_u},
                 {"landing_v", c->landing_v},
                 {"cutoff_v", c->cutoff_v}};
    for (size_t i = 0; i < sizeof field / sizeof field[0]; i++)
        fprintf(out, "%*s.%s = %.4g,\n", indent, "", field[i].name, field[i].value);
    fprintf(out, "%*s.doubt = {%.2g, %.2g, %.2g}},\n", indent, "", c->doubt.ohm_share_u,
            c->doubt.cell_v_u, c->doubt.capacity_share_u);
}

bool cell_write(FILE *out, const pare_cell cell[PARE_CHEMISTRIES])
{
    fprintf(
        out,
        "/* cells_fitted.c: the cells' constants. Written by `tools/fit DATA_FOLDER cells`: change "
        "the fit,\n"
        " * not this file. docs/decisions.md has the errors on cells that the fit did not see. */\n"
        "#include \"physics/cell.h\"\n\n"
        "const pare_cell pare_cells_fitted[PARE_CHEMISTRIES] = {\n");
    for (int i = 0; i < PARE_CHEMISTRIES; i++)
        put_cell(out, i, &cell[i]);
    return fprintf(out, "};\n") > 0;
}
