/* rooms: base */
/* study.c: a study on one rank and on two, by the built program and mpirun: seconds, and processor time of all of it.
 *
 * Best sets of the demo's craft for three budgets in two airs, the same for both, a minute in all; runs take turns,
 * and the least of each counts, since whatever else the machine does only adds. Two ranks need two processors that
 * are idle: on a busy machine the seconds say nothing, unless it runs before all others (chrt -r 1), and the
 * processor time says what the sharing itself costs.
 *
 * usage: speed_study BENCH */
#define _DEFAULT_SOURCE /* wait4 */
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ROUNDS = 2 };

static const char study[] = "study: speed\n"
                            "craft: all\n"
                            "effort: 300\n"
                            "vary:\n"
                            "  budget: [any, 200, 100]\n"
                            "  air.temperature: [0 degC, 30 degC]\n";

typedef struct took {
    double seconds, processor_s;
} took;

static double seconds(const struct timespec *from)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - from->tv_sec) + 1e-9 * (double)(now.tv_nsec - from->tv_nsec);
}

static double seconds_of(const struct timeval *time)
{
    return (double)time->tv_sec + 1e-6 * (double)time->tv_usec;
}

/* @return false: it cannot be run */
static bool run(const char *ranks, const char *bench, took *out)
{
    struct timespec began;
    struct rusage use;
    int status = 0;
    (void)remove("speed.journal");
    clock_gettime(CLOCK_MONOTONIC, &began);
    const pid_t child = fork();
    if (child == 0) {
        const int none = open("/dev/null", O_RDWR);
        if (none >= 0 && dup2(none, 1) >= 0 && strcmp(ranks, "0") == 0)
            execl(PARE_BINARY, "pare", "study", "speed.yaml", "--bench", bench, (char *)NULL);
        execlp("mpirun", "mpirun", "--oversubscribe", "-n", ranks, PARE_BINARY, "study",
               "speed.yaml", "--bench", bench, (char *)NULL);
        _exit(127);
    }
    if (child < 0 || wait4(child, &status, 0, &use) != child || status != 0)
        return false;
    out->seconds = seconds(&began);
    out->processor_s = seconds_of(&use.ru_utime) + seconds_of(&use.ru_stime);
    return true;
}

static bool write_study(void)
{
    FILE *file = fopen("speed.yaml", "w");
    return file && fputs(study, file) >= 0 && fclose(file) == 0;
}

static void keep_least(took *least, const took *one)
{
    if (least->seconds == 0 || one->seconds < least->seconds)
        least->seconds = one->seconds;
    if (least->processor_s == 0 || one->processor_s < least->processor_s)
        least->processor_s = one->processor_s;
}

int main(int argc, char *argv[])
{
    static const char *const ranks[] = {"0", "1", "2"};
    static const char *const words[] = {"without mpirun", "one rank", "two ranks"};
    char bench[4096], folder[] = "/tmp/pare-speed-XXXXXX";
    took least[3] = {{0}};
    if (argc != 2 || !realpath(argv[1], bench) || !mkdtemp(folder) || chdir(folder) != 0 ||
        !write_study())
        return 2;
    /* As in a container; otherwise without effect. */
    setenv("OMPI_ALLOW_RUN_AS_ROOT", "1", 0);
    setenv("OMPI_ALLOW_RUN_AS_ROOT_CONFIRM", "1", 0);
    for (int round = 0; round < ROUNDS; round++)
        for (int i = 0; i < 3; i++) {
            took one;
            if (!run(ranks[i], bench, &one)) {
                printf("study on ranks: cannot be run (mpirun, and a bench: see packages.txt)\n");
                return 1;
            }
            keep_least(&least[i], &one);
        }
    for (int i = 0; i < 3; i++)
        printf("study, 24 best sets, %-14s: %6.2f s, %6.2f s of processor time\n", words[i],
               least[i].seconds, least[i].processor_s);
    printf("study: two ranks are %.2f x one, for %.3f x its processor time\n",
           least[1].seconds / least[2].seconds, least[2].processor_s / least[1].processor_s);
    return 0;
}
