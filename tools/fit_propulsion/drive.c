/* drive.c: motors and ESCs, fitted to two thrust stands (see subjects.h).
 *
 * drive_bench.c reads them, drive_model.c says what is believed of them, drive_judge.c leaves motors
 * out and foretells them. Here: the fit of all, its tables, and the constants as C.
 *
 * A stand sees one resistance, the winding's on an ESC. How much of it is the winding's own, as a
 * maker states it, and how much the drive adds cannot be told apart by these tables. So the excess over
 * the trade's law is shared between both by what was believed of each before: the law right within
 * 12 %, since a stator of 22 x 7 mm and 1750 rpm/V is stated at 50 to 80 mohm; the drive adding 15 %,
 * within a factor of 1.25.
 *
 * How much of what the drive adds is the winding's own, to warm it and to rise with its heat, is an
 * estimate too, [E] half: of some 25 W lost to it at full throttle in 180, an ESC's switches, diodes
 * and leads take 5 to 9 (3 to 5 % of the power, from memory), the current's own field in iron and magnets
 * a few. With half, readings held for 2 and 5 s show 0.35 and 0.5 of the steady heating, near the 0.3
 * and 0.5 expected; with none the second asks for 0.75. */
#include <math.h>

#include "drive_floor.h"
#include "drive_judge.h"
#include "page.h"
#include "subjects.h"

static const char *const form_name[] = {"published", "published form, refitted",
                                        "with the pulses' loss"};

enum { FORMS = DRIVE_WITH_PULSES + 1 };

typedef struct fitted {
    drive_model model;
    double x[DRIVE_PARAMETERS], u[DRIVE_PARAMETERS];
    drive_scatter scatter;
    drive_judged judged;
} fitted;

static void print_motors(const fitted *f)
{
    printf("motor  stated  measured kV        driven winding       no-load at 10 V\n");
    for (int m = 0; m < DRIVE_MOTORS; m++) {
        const drive_motor *motor = &f->model.bench->motor[m];
        const double kv = motor->kv_rpm_per_v, v = motor->stator_mm3;
        const double *u = &f->u[OF_MOTOR * m];
        printf("  %-3s  %5.0f  x %.3f (%.3f)   %6.1f mohm (%2.0f %%)   %5.2f A (%2.0f %%)%s\n",
               motor->name, kv, exp(f->x[AT_KV] + drive_of(f->x, m, OF_KV)), u[OF_KV],
               1e3 * pare_drive_published.winding_law / (kv * kv) * pow(v, -1.61) *
                   exp(f->x[AT_WINDING] + drive_of(f->x, m, OF_WINDING)),
               100 * u[OF_WINDING],
               pare_drive_published.no_load_law * kv / 1750 * pow(v / 3388, 0.84) *
                   exp(f->x[AT_NO_LOAD] + drive_of(f->x, m, OF_NO_LOAD)),
               100 * u[OF_NO_LOAD], motor->sized ? "" : "   size not stated");
    }
    printf("scatter of motors: kV %.1f %%, winding %.0f %%, no-load %.0f %%, the last two "
           "correlated by %.2f\n",
           100 * f->scatter.kv, 100 * f->scatter.winding, 100 * f->scatter.no_load,
           f->scatter.correlation);
}

static void print_propellers(const fitted *f)
{
    printf("propeller  figure of merit   by the propeller model   thrust coefficient\n");
    for (int p = 0; p < DRIVE_PROPELLERS; p++)
        printf("  %d        %.3f (%.1f %%)     %.3f                    %.4f\n", p + 1,
               exp(f->x[AT_MERIT] + f->x[AT_EACH_MERIT + p]),
               100 * hypot(f->u[AT_MERIT], f->u[AT_EACH_MERIT + p]), f->model.merit[p],
               f->model.thrust_coefficient[p]);
    printf(
        "heating while a reading was held, of steady: %.2f (%.2f) on the 5 in stand, %.2f (%.2f) "
        "on the 7 in one\n",
        f->x[AT_HEAT], f->u[AT_HEAT], f->x[AT_HEAT + 1], f->u[AT_HEAT + 1]);
}

/* One piece at a time: what readings at one duty are off in the middle, were the fit's pieces wrong. */
static void print_pieces(const fitted *f)
{
    static const double edge[] = {0, 0.3, 0.45, 0.6, 0.75, 0.9, 2};
    printf("power by duty, 5 in and 7 in stand (mean of ln predicted/measured, readings):\n");
    for (size_t k = 0; k + 1 < sizeof edge / sizeof edge[0]; k++) {
        double sum[2] = {0}, count[2] = {0};
        for (size_t i = 0; i < f->model.bench->rows; i++) {
            const drive_row *row = &f->model.bench->row[i];
            if (!drive_model_takes(&f->model, row))
                continue;
            const double torque = drive_model_torque(&f->model, f->x, row, row->speed_rad_s);
            const drive_load load =
                drive_model_load(&f->model, f->x, row, row->speed_rad_s, torque);
            const double duty = load.motor_v / row->volts_v;
            if (duty < edge[k] || duty >= edge[k + 1])
                continue;
            const int which = row->propeller < 0;
            sum[which] += log(load.power_w / (row->volts_v * row->current_a));
            count[which]++;
        }
        printf("  duty %.2f .. %.2f: %+.3f (%3.0f)   %+.3f (%2.0f)\n", edge[k],
               fmin(edge[k + 1], 1), sum[0] / fmax(count[0], 1), count[0],
               sum[1] / fmax(count[1], 1), count[1]);
    }
}

static void print_form(FILE *out, const fitted *f)
{
    const drive_judged *j = &f->judged;
    fprintf(out, "| %s | %.1f / %.1f | %.1f / %.1f | %.1f / %.1f | %.1f / %.1f | %.0f / %.0f |\n",
            form_name[f->model.form], 100 * j->at_thrust[0], 100 * j->at_thrust[1],
            100 * j->modelled[0], 100 * j->modelled[1], 100 * j->at_speed[0], 100 * j->at_speed[1],
            100 * j->volts[0], 100 * j->volts[1], 100 * j->within[0], 100 * j->within[1]);
}

static double mean_of(const double x[], int count)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        sum += x[i] / count;
    return sum;
}

static double scatter_of(const double x[], int count)
{
    const double mean = mean_of(x, count);
    double square = 0;
    for (int i = 0; i < count; i++)
        square += (x[i] - mean) * (x[i] - mean);
    return sqrt(square / (count - 1));
}

/* Idle currents of four ESCs: one carries something else. So the middle two stand for all. */
static double middle_idle_a(const double ln_idle[DRIVE_ESCS])
{
    double sorted[DRIVE_ESCS];
    for (int i = 0; i < DRIVE_ESCS; i++) {
        int k = i;
        for (; k > 0 && sorted[k - 1] > ln_idle[i]; k--)
            sorted[k] = sorted[k - 1];
        sorted[k] = ln_idle[i];
    }
    return exp((sorted[1] + sorted[2]) / 2);
}

static void write_constants(const fitted *f, FILE *out)
{
    const double *x = f->x;
    const double over_law = x[AT_WINDING];
    const double drive = drive_over_winding(over_law);
    const double share = 1 / (1 + exp(-x[AT_IRON]));
    const double share_u = share * (1 - share) * f->judged.jackknife_u[AT_IRON];
    const drive_judged *j = &f->judged;
    const double times = j->scatter_times;
    fprintf(
        out,
        "/* drive_fitted.c: constants of motors and ESCs (see drive.h). Written by tools/fit; do "
        "not "
        "edit.\n *\n"
        " * Fitted to %zu readings: 12 motors and 7 propellers of 5 in on one ESC (Cao and "
        "Strawson,\n"
        " * student bench data, 2018, MIT licence; no torque), and three motors on three ESCs with "
        "a "
        "7 in\n"
        " * propeller (A. Spitzer, Carnegie Mellon, 2019, MIT licence; torque measured). kV 1600 "
        "to\n"
        " * 2800, stators 18 x 4 to 23 x 6 mm, 7 to 16 V, 0.2 to 40 A.\n *\n"
        " * Electrical power at thrust of motors left out, propeller known, winding and no-load "
        "current by\n"
        " * the laws: median error %.1f %%, 90th percentile %.1f %%; of their readings %.0f %% lay "
        "in the\n"
        " * 50 %% interval, %.0f %% in the 90 %% one. Volts at full throttle: %.1f / %.1f %%.\n "
        "*\n",
        f->model.bench->rows, 100 * j->at_thrust[0], 100 * j->at_thrust[1], 100 * j->within[0],
        100 * j->within[1], 100 * j->volts[0], 100 * j->volts[1]);
    fprintf(
        out,
        " * Doubt: no stator's winding was measured by itself, so winding_law and drive_excess are "
        "known\n"
        " * only by their product, %.2f of the published law; priors share it. The level of all "
        "losses hangs\n"
        " * on the propellers' figure of merit: %.3f as fitted, 0.570 +- 6 %% before. "
        "on_ohm was\n"
        " * not told from the winding and is the published estimate. One ESC of four idles at %.2f "
        "A, with\n"
        " * its own electronics: idle_a is the middle of the others. excess_warms and heat_u are\n"
        " * estimates. */\n",
        exp(over_law), exp(x[AT_MERIT]),
        exp(fmax(fmax(x[AT_IDLE], x[AT_IDLE + 1]), fmax(x[AT_IDLE + 2], x[AT_IDLE + 3]))));
    fprintf(out,
            "#include \"physics/drive.h\"\n\n"
            "const pare_drive pare_drive_fitted = {\n"
            "    .iron_share = %.3f,\n"
            "    .drive_excess = %.3f,\n"
            "    .excess_warms = %.2f,\n"
            "    .pulse_loss = %.3f,\n"
            "    .esc = {.on_ohm = %.4f, .switching = %.4f, .idle_a = %.4f},\n",
            share, drive - 1, DRIVE_EXCESS_WARMS, x[AT_PULSE], pare_drive_published.esc.on_ohm,
            x[AT_SWITCHING] + mean_of(&x[AT_EACH_SWITCHING], DRIVE_ESCS),
            middle_idle_a(&x[AT_IDLE]));
    fprintf(out,
            "    .winding_law = %.4e,\n"
            "    .no_load_law = %.3f,\n"
            "    .iron_share_u = %.3f,\n"
            "    .pulse_loss_u = %.3f,\n"
            "    .drive_u = %.3f,\n"
            "    .winding_u = %.3f,\n"
            "    .no_load_u = %.3f,\n"
            "    .kv_u = %.3f,\n"
            "    .on_u_ohm = %.4f,\n"
            "    .switching_u = %.4f,\n"
            "    .idle_u = %.2f,\n"
            "    .heat_u = 0.40,\n"
            "    .power_u = %.3f,\n"
            "};\n",
            pare_drive_published.winding_law * exp(over_law) / drive,
            pare_drive_published.no_load_law * exp(x[AT_NO_LOAD]), share_u,
            f->judged.jackknife_u[AT_PULSE],
            DRIVE_LAW_U * DRIVE_EXCESS_U / hypot(DRIVE_LAW_U, DRIVE_EXCESS_U),
            times * f->scatter.winding, times * f->scatter.no_load,
            hypot(times * f->scatter.kv, x[AT_KV]), pare_drive_published.esc.on_ohm / 2,
            scatter_of(&x[AT_EACH_SWITCHING], DRIVE_ESCS), scatter_of(&x[AT_IDLE], DRIVE_ESCS),
            j->at_speed[0] / 0.6745);
}

/* Electrical power at the thrusts that were read, of motors left out. */
static bool draw_power(const char *folder, const fit_points *points)
{
    static const char *const kind_name[] = {"2 blades", "3 blades", "4 blades"};
    const fit_plot plot = {.title = "Power into the ESC at a thrust, 5 in stand",
                           .note = "each motor by its kV and stator, and a fit that did not see it",
                           .quantity = "electrical power, W",
                           .count = points->count,
                           .measured = points->measured,
                           .predicted = points->predicted,
                           .kind = points->kind,
                           .kinds = sizeof kind_name / sizeof kind_name[0],
                           .kind_name = kind_name};
    return !points->lost && fit_plot_agreement(folder, "stand_power", &plot);
}

static bool judge_forms(const drive_bench *bench, fitted f[], fit_points *points, FILE *out)
{
    bool fine = true;
    fprintf(out, "| constants | power at a thrust | the same, propeller by its size and line too | "
                 "power at a speed | volts at full throttle | in the 50 / 90 %% interval |\n"
                 "| --- | --- | --- | --- | --- | --- |\n");
    for (int form = 0; fine && form < FORMS; form++) {
        const bool last = form == DRIVE_WITH_PULSES;
        drive_model_make(bench, (drive_form)form, -1, &f[form].model);
        fine = drive_model_fit(&f[form].model, f[form].x, f[form].u) &&
               drive_judge(bench, (drive_form)form, last, last ? points : NULL, &f[form].judged);
        f[form].scatter = drive_scatter_of(&f[form].model, f[form].x, f[form].u);
        print_form(out, &f[form]);
    }
    return fine;
}

bool fit_drive(const char *data_folder, const fit_to *to)
{
    drive_bench bench;
    fit_block block;
    fitted f[FORMS] = {0};
    fit_points points = {0};
    if (!drive_bench_read(data_folder, &bench))
        return false;
    bool fine = drive_floors(&bench, to->page);
    printf("\nmotors left out, median / 90th percentile of errors:\n");
    if (fine && fit_block_open(&block)) {
        fine = judge_forms(&bench, f, &points, block.out);
        fine = fit_block_close(&block, to->page, "motors left out") && fine;
    } else {
        fine = false;
    }
    if (fine) {
        print_motors(&f[DRIVE_WITH_PULSES]);
        print_propellers(&f[DRIVE_WITH_PULSES]);
        print_pieces(&f[DRIVE_WITH_PULSES]);
        write_constants(&f[DRIVE_WITH_PULSES], to->constants);
        fine = draw_power(to->pictures, &points);
    }
    fit_points_free(&points);
    drive_bench_free(&bench);
    return fine;
}
