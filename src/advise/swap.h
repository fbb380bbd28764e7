/* swap.h: single changes to a craft: named, tried, listed with all that they do.
 *
 * A swap's name is WHAT=VALUE and stays the same for ever: "motor=mo-b", "bumper=off",
 * "joint.motor_base.material=titanium", "joint.motor_base.count=8", "joint.motor_base.length=6mm",
 * "run.lead.gauge=16", "run.lead.length=70mm", "antenna.length=40mm". The list and --try apply a swap
 * by the same function, so a row and a trial give the same numbers bit for bit. */
#ifndef PARE_ADVISE_SWAP_H
#define PARE_ADVISE_SWAP_H

#include "craft/craft.h"
#include "craft/sheet.h"

enum { PARE_SWAP_NAME = 128, PARE_SWAP_NOTES = 8, PARE_SWAP_BREAKS = 12 };

/** What applying a swap did to the craft. */
typedef struct pare_applied {
    char id[PARE_SWAP_NAME];
    char from[64], to[64]; /* as read by a person */
    double money;          /* paid, as it must be bought, less what is owned */
    bool priced;           /* false: a price is not known */
    double work_min;
    bool sought;          /* rests on a part that is on no shelf */
    size_t brings, drops; /* items, parts or runs that come or go along */
    char bring[PARE_SWAP_NOTES][64], drop[PARE_SWAP_NOTES][64];
    size_t notes; /* what it brings into question */
    char note[PARE_SWAP_NOTES][160];
    unsigned jobs_lost;  /* bit (1u << job), only jobs that nothing else does now */
    bool weaker, hotter; /* lighter or fewer screws; a thinner wire */
    bool radio;          /* an antenna or what feeds it */
    bool deep;           /* motors or pack change */
    bool protects_esc;   /* the capacitor's: money or not, never free */
    bool open_question;  /* a note says what must be put right or weighed first: never counted among
                           what goes together */
} pare_applied;

/** Applies one named swap to a settled craft (not yet loaded).
 *
 * @param changed  the craft with the swap, settled again; may be the same as craft; untouched on
 *                 failure
 * @param applied  may be NULL
 * A sought part is made in the bench's arena.
 * @return PARE_OK; PARE_UNKNOWN for a name, part or value that is not there (with the nearest);
 *         PARE_BAD_DATA for one that does not fit, with both sides of the interface */
pare_status pare_swap_apply(const pare_bench *bench, const pare_craft *craft, const char *id,
                            pare_craft *changed, pare_applied *applied, pare_error *err);

/** Several, in order; two that set the same thing clash: PARE_UNKNOWN, naming both.
 * @param list  "bumper=off,joint.motor_base.material=titanium" */
pare_status pare_swap_apply_list(const pare_bench *bench, const pare_craft *craft, const char *list,
                                 pare_craft *changed, pare_error *err);

typedef enum pare_wish {
    PARE_WISH_GRAMS,
    PARE_WISH_MINUTES,
    PARE_WISH_THRUST,
    PARE_WISH_QUICKNESS,
    PARE_WISH_MONEY,
    PARE_WISH_CRASH,
    PARE_WISHES
} pare_wish;
int pare_wish_named(const char *name);
const char *pare_wish_name(pare_wish wish);

/** What it takes: nothing; money, at PARE_CHEAP_PER_G a gram or less, with motors and pack as they are;
 * other motors or another pack; money beyond that (or an unknown price), which no sum counts. */
typedef enum pare_band {
    PARE_BAND_FREE,
    PARE_BAND_CHEAP,
    PARE_BAND_DEEP,
    PARE_BAND_DEAR,
    PARE_BANDS
} pare_band;
const char *pare_band_name(pare_band band);
enum { PARE_BAND_SUMS = PARE_BAND_DEAR }; /* the bands before it are summed */
#define PARE_CHEAP_PER_G 2.0 /* of the bench's money, about euros; common practice, no source */

typedef struct pare_swap {
    pare_applied applied;
    double grams_kg, grams_u_kg; /* saved: lighter is positive */
    double money_per_g;          /* NAN when it saves nothing or has no price */
    pare_band band;
    double change[PARE_FIGURES]; /* SI, with less before; NAN where a figure is missing */
    size_t breaks, loosens;      /* names of margins */
    char broken[PARE_SWAP_BREAKS][48], loosened[PARE_SWAP_BREAKS][48];
} pare_swap;

typedef struct pare_swaps {
    size_t count;
    pare_swap *swap; /* from the arena; best first: free first, then by wish; sought ones last */
    double
        band_kg[PARE_BAND_SUMS]; /* saved by the best of each choice: free; free and cheap; all */
    double band_money[PARE_BAND_SUMS];
    size_t free_count;
    size_t *free_index; /* the free ones that go together */
    double together_kg; /* what they save together, re-evaluated */
} pare_swaps;

/** Every single swap that the bench and the rules allow.
 * @param loadout  -1 or an index into the craft's loadouts */
pare_status pare_swaps_find(const pare_bench *bench, const pare_craft *craft, int loadout,
                            pare_wish wish, pare_arena *arena, pare_swaps *swaps, pare_error *err);

/** The names of the swaps that pare_swaps_find() would try, in the order of the craft's items, joints
 * and runs. Not each fits.
 * @param[out] names  [count], in the arena */
pare_status pare_swap_names(const pare_bench *bench, const pare_craft *craft, int loadout,
                            pare_arena *arena, size_t *count, const char *const **names,
                            pare_error *err);

/** The same sums (band_kg, band_money, together_kg) without a list: count and free_count are 0. For a
 * first screen: single swaps are only weighed, so it takes a fraction of the time. */
pare_status pare_swaps_sum(const pare_bench *bench, const pare_craft *craft, int loadout,
                           pare_arena *arena, pare_swaps *swaps, pare_error *err);

#endif
