/* editor.c: see editor.h.
 *
 * The shell starts the editor, since VISUAL and EDITOR may hold words of their own ("code --wait").
 * While it runs, Ctrl-C and Ctrl-\ are its own, as with system(3): they reach all of the terminal's
 * foreground group, and an editor means something by them. */
#include "cli/editor.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/text.h"
#include "store/disk.h"

enum { TEXT_MOST = 64 << 20 };

pare_status editor_open(const char *name, const char *text, pare_arena *arena, editor *at,
                        pare_error *err)
{
    const char *folder = getenv("TMPDIR");
    char *made = pare_arena_printf(arena, "%s/pare-XXXXXX", folder && *folder ? folder : "/tmp");
    *at = (editor){.arena = arena, .given = pare_arena_text(arena, text)};
    if (!made || !at->given)
        return pare_no_memory(err);
    if (!mkdtemp(made))
        return pare_fail(err, PARE_UNAVAILABLE, "%s: no folder can be made there (%s)", made,
                         strerror(errno));
    /* Names of parts and craft have no '/', nor start with a '.'. */
    at->path = pare_arena_printf(arena, "%s/%s.yaml", made, name);
    at->text = at->given;
    at->length = strlen(at->given);
    if (!at->path)
        return pare_no_memory(err);
    const pare_status status = pare_disk_write(at->path, at->given, at->length, err);
    if (status != PARE_OK)
        editor_close(at);
    return status;
}

/* ---- which editor ---- */

static bool is_there(const char *program)
{
    const char *path = getenv("PATH");
    for (const char *at = path; at && *at;) {
        const size_t length = strcspn(at, ":");
        pare_text file = {0};
        pare_text_put(&file, at, length);
        pare_text_printf(&file, "/%s", program);
        const bool found = !file.failed && access(file.bytes, X_OK) == 0;
        pare_text_free(&file);
        if (found)
            return true;
        at += length + (at[length] == ':');
    }
    return false;
}

static const char *program_of(void)
{
    static const char *const variables[] = {"VISUAL", "EDITOR"}, *const usual[] = {"vi", "nano"};
    for (size_t i = 0; i < 2; i++) {
        const char *said = getenv(variables[i]);
        if (said && said[strspn(said, " ")])
            return said;
    }
    for (size_t i = 0; i < 2; i++)
        if (is_there(usual[i]))
            return usual[i];
    return NULL;
}

/* ---- running it ---- */

static void exec_editor(const char *program, const char *path)
{
    char command[4096];
    const int length = snprintf(command, sizeof command, "%s \"$1\"", program);
    if (length > 0 && (size_t)length < sizeof command)
        execl("/bin/sh", "sh", "-c", command, "sh", path, (char *)NULL);
    _exit(127);
}

/* @return the status of waitpid(), or -1 where it could not be started */
static int start_and_wait(const char *program, const char *path)
{
    static const int its_own[] = {SIGINT, SIGQUIT};
    struct sigaction before[2], ignore = {.sa_handler = SIG_IGN};
    int ended = -1;
    for (int i = 0; i < 2; i++)
        sigaction(its_own[i], &ignore, &before[i]);
    const pid_t child = fork();
    if (child == 0) {
        for (int i = 0; i < 2; i++)
            sigaction(its_own[i], &before[i], NULL);
        exec_editor(program, path);
    }
    while (child > 0 && waitpid(child, &ended, 0) < 0)
        if (errno != EINTR) {
            ended = -1;
            break;
        }
    for (int i = 0; i < 2; i++)
        sigaction(its_own[i], &before[i], NULL);
    return ended;
}

static pare_status say_end(const char *program, int ended, pare_error *err)
{
    enum { NOT_FOUND = 127, SIGNALLED = 128 }; /* as a shell says them */
    if (ended == 0)
        return PARE_OK;
    const int signal_number = ended == -1                      ? 0
                              : WIFSIGNALED(ended)             ? WTERMSIG(ended)
                              : WEXITSTATUS(ended) > SIGNALLED ? WEXITSTATUS(ended) - SIGNALLED
                                                               : 0;
    if (signal_number)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "the editor '%.80s' was ended by signal %d: nothing was changed", program,
                         signal_number);
    if (ended == -1 || WEXITSTATUS(ended) == NOT_FOUND)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "the editor '%.80s' cannot be started: nothing was changed; right would "
                         "be another in VISUAL or EDITOR",
                         program);
    return pare_fail(err, PARE_UNAVAILABLE,
                     "the editor '%.80s' ended with status %d: nothing was changed", program,
                     WEXITSTATUS(ended));
}

pare_status editor_run(editor *at, pare_error *err)
{
    const char *program = program_of();
    if (!program)
        return pare_fail(err, PARE_UNAVAILABLE,
                         "no editor: neither VISUAL nor EDITOR says one, and there is no vi or "
                         "nano; right would be like EDITOR=nano");
    const pare_status ended = say_end(program, start_and_wait(program, at->path), err);
    pare_error unread = {0};
    const pare_status read =
        pare_disk_read(at->path, TEXT_MOST, at->arena, &at->text, &at->length, &unread);
    at->failed = ended != PARE_OK;
    if (ended == PARE_OK && read != PARE_OK)
        return pare_fail(err, read, "%s", unread.text);
    return ended;
}

bool editor_changed(const editor *at)
{
    return strlen(at->given) != at->length || memcmp(at->given, at->text, at->length) != 0;
}

/* ---- afterwards ---- */

bool editor_asks_again(pare_error *err)
{
    if (!isatty(STDIN_FILENO) || !isatty(STDERR_FILENO))
        return false;
    fprintf(stderr, "pare: %s\nEdit again? [Y/n] ", err->text);
    fflush(stderr);
    char answer[64];
    if (!fgets(answer, sizeof answer, stdin))
        return false;
    const char first = answer[strspn(answer, " ")];
    return first != 'n' && first != 'N';
}

pare_status editor_keep(const editor *at, pare_status status, pare_error *err)
{
    const pare_error was = *err;
    if (strncmp(was.text, at->path, strlen(at->path)) == 0)
        return pare_fail(err, status, "%.400s; your text is kept there", was.text);
    return pare_fail(err, status, "%.380s; your text is kept in %s", was.text, at->path);
}

void editor_close(const editor *at)
{
    if (!at->path)
        return;
    unlink(at->path);
    /* With the copies that some editors leave, as far as they are known; the folder then goes. */
    static const char *const left[] = {"~", ".bak"};
    for (size_t i = 0; i < sizeof left / sizeof *left; i++) {
        const char *copy = pare_arena_printf(at->arena, "%s%s", at->path, left[i]);
        if (copy)
            unlink(copy);
    }
    const char *slash = strrchr(at->path, '/');
    const char *folder = pare_arena_copy(at->arena, at->path, (size_t)(slash - at->path));
    if (folder)
        rmdir(folder);
}
