/* published_props.c: see published_props.h. Without a correction: their trends are zero. */
#include "published_props.h"

/* What both sets share. v6 (chord against blade count) was not identified, so many_blades stands in
 * for it (three-blade 5 in propellers on a thrust stand: median thrust error +3 % with it, +23 %
 * without). Line "slow" is v3 and v7 of the default blade, or the twist of a measured one. */
#define SHARED                                                                                     \
    .zero_lift_rad = -0.0463027584219, .drag_centre = 0.599195249776,                              \
    .stall_width = 0.194550532508, .plate_normal = 1.29117340016, .rotation = 6.68610098559,       \
    .hub = 0.1, .inner = 0.15, .loss_factor = 0.700823820125, .lift_least = 0.7,                   \
    .mach_most = 0.75, .ideal_share_most = 1,                                                      \
    .chord = {0.15220139376, -0.0121949849038, -0.024510959003},                                   \
    .twist = {1.00330362525, 0.0155489494019}, .chord_blades = -3.90046325947e-18,                 \
    .chord_shape = {-3.262180831, 3.26920730462, -1.1890255339, 0.420381458299, 1.01868592054},    \
    .twist_shape = {2.87938329582, -5.93931495908, 3.80967214927, -0.735919048235},                \
    .many_blades = 0.86, .chord_max_ratio = 1.144

const pare_prop_constants published_family = {
    .name = "published family",
    .lift_slope = 6.99145422538,
    .lift_slope_exponent = 0.146500622832,
    .lift_most = 1.52515646651,
    .lift_most_exponent = 0.136494563805,
    .drag_least = 0.0201012466616,
    .drag_least_exponent = 0.344622231135,
    .drag_curve = 0.0490941617053,
    .slow_chord = 0.0535578154821,
    .slow_twist_rad = -0.0147646707444,
    SHARED,
};

const pare_prop_constants published_true = {
    .name = "published measured",
    .lift_slope = 6.99145422538,
    .lift_slope_exponent = 0.0783102766276,
    .lift_most = 1.62968763338,
    .lift_most_exponent = 0.136494563805,
    .drag_least = 0.0181180668938,
    .drag_least_exponent = 0.0680438303736,
    .drag_curve = 0.0761840437644,
    .slow_twist_rad = 0.0478582711138,
    SHARED,
};
