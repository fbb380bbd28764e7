/* screw_length.c: screw length from the stack (see screw_length.h).
 *
 * Plate, washer and thread in thread make a screw's length; the winding, or a full nut's height of
 * thread, makes its limits. A thicker arm under the same motor asks for the next length, and whoever
 * changes a frame should not find that out with the motors off. The screws do not follow by themselves:
 * a swap that was undone would leave them cut, so the change of length is a swap of its own. */
#include "advise/screw_length.h"

#include <math.h>
#include <stdio.h>

#define HAIR_M 1e-6

static const double standard_mm[] = {3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 25, 30, 35, 40, 45, 50};
enum { STANDARDS = sizeof standard_mm / sizeof standard_mm[0], MEND = 32 };

static double enters_m(const pare_craft *craft, const pare_joint *joint, double length_m)
{
    pare_joint other = *joint;
    other.length_m = length_m;
    return pare_joint_enters_m(craft, &other);
}

static bool touches(const pare_craft *craft, const pare_joint *joint, double length_m)
{
    const double depth_m = pare_joint_depth_m(craft, joint).value;
    return depth_m > 0 && enters_m(craft, joint, length_m) > depth_m + HAIR_M;
}

bool pare_screw_length_suits(const pare_craft *craft, const pare_joint *joint, double length_m)
{
    const double enters = enters_m(craft, joint, length_m);
    return isnan(enters) ||
           (!touches(craft, joint, length_m) && enters >= pare_joint_least_m(joint) - HAIR_M);
}

double pare_screw_standard_m(double least_m)
{
    size_t i = 0;
    while (i < STANDARDS - 1 && 1e-3 * standard_mm[i] < least_m - HAIR_M)
        i++;
    return 1e-3 * standard_mm[i];
}

double pare_screw_length_best_m(const pare_craft *craft, const pare_joint *joint)
{
    const double needed_m = pare_joint_needed_m(craft, joint);
    if (!pare_is_screw(joint->standard) || !(needed_m > 0))
        return 0;
    double longest_m = 0;
    for (size_t i = 0; i < STANDARDS; i++) {
        const double length_m = 1e-3 * standard_mm[i];
        if (!pare_screw_length_suits(craft, joint, length_m))
            continue;
        if (length_m >= needed_m - HAIR_M)
            return length_m;
        longest_m = length_m;
    }
    return longest_m;
}

/* "; 8 mm would do", where a standard length would. */
static void mend_words(const pare_craft *craft, const pare_joint *joint, char text[static MEND])
{
    const double best_m = pare_screw_length_best_m(craft, joint);
    text[0] = '\0';
    if (best_m > 0)
        snprintf(text, MEND, "; %.4g mm would do", 1e3 * best_m);
}

bool pare_screw_length_warn(pare_edit *edit, const pare_joint *joint)
{
    const pare_craft *craft = edit->craft;
    if (!touches(craft, joint, joint->length_m))
        return false;
    const pare_item *motor = &craft->item[pare_craft_item(craft, joint->holds)];
    char mend[MEND];
    mend_words(craft, joint, mend);
    pare_edit_warn(edit, "joint.%s: screws enter %.1f mm, '%s' takes %.1f mm: winding%s",
                   joint->name, 1e3 * pare_joint_enters_m(craft, joint), motor->part->id,
                   1e3 * pare_joint_depth_m(craft, joint).value, mend);
    return true;
}

void pare_screw_lengths_question(pare_edit *edit)
{
    const pare_craft *craft = edit->craft;
    for (size_t i = 0; i < craft->joints; i++) {
        const pare_joint *joint = &craft->joint[i];
        const int held = joint->holds ? pare_craft_item(craft, joint->holds) : -1;
        const double needed_m = pare_joint_needed_m(craft, joint);
        if (held < 0 || craft->item[held].part->kind != PARE_MOTOR || !(needed_m > 0) ||
            !pare_is_screw(joint->standard) || pare_screw_length_warn(edit, joint) ||
            joint->length_m >= needed_m - HAIR_M)
            continue;
        char mend[MEND];
        mend_words(craft, joint, mend);
        pare_edit_warn(edit, "joint.%s: %.3g mm screws where %.3g mm are needed%s", joint->name,
                       1e3 * joint->length_m, 1e3 * needed_m, mend);
    }
}
