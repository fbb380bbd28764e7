/* rooms: store craft physics base */
/* Drawings of plates, SVG and DXF, each with what it measures or the line that refuses it. Areas of squares,
 * circles and triangles are checked by hand in tests/unit/dxf.c and solid.c; the standards are SVG 1.1 (W3C,
 * 2011) and the DXF reference of AutoCAD 2012, from memory. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "near.h"
#include "store/outline.h"

typedef struct drawing_case {
    const char *name, *text, *answer;
} drawing_case;

static void say(const drawing_case *one, pare_text *answer)
{
    pare_arena *arena = pare_arena_open();
    pare_loops loops = {.arena = arena};
    pare_outline_facts facts;
    pare_error err = {0};
    if (pare_outline_measure(one->name, one->text, strlen(one->text), &loops, &facts, &err) !=
        PARE_OK)
        pare_text_add(answer, err.text);
    else
        pare_text_printf(answer, "%.5g mm2 within %.4g x %.4g mm, %zu holes", 1e6 * facts.area_m2,
                         1e3 * (facts.high_m[0] - facts.low_m[0]),
                         1e3 * (facts.high_m[1] - facts.low_m[1]), facts.holes);
    pare_arena_close(arena);
}

static void expect(size_t count, const drawing_case cases[])
{
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(&cases[i], &text);
        const char *answer = text.bytes;

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu, of\n%s\nsays\n%s\nand not\n%s", i, cases[i].text, answer,
                     cases[i].answer);
        pare_text_free(&text);
    }
}

static void paths_and_shapes_of_an_svg(void **state)
{
    (void)state;
    static const drawing_case cases[] = {
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10H50V40H10Z'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10,10 L50,10\t50,40\n10,40z'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='m10 10 h40 v30 h-40 z'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M+10+10 50 10 50 40 10 40Z'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M1e1 10H5e1V4e+1H100e-1Z'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L50 10 L50 40'/></svg>",
         "x.svg: the outline is open at (10, -10) mm, the next end is at (50, -40) mm; right would "
         "be closed loops, ends within 0.01 mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='10 10'/></svg>",
         "x.svg:1:92: path: its data make no sense from '10 10'; right would be commands M L H V C "
         "S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='L10 10'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'L10 10'; right would be commands M L H V "
         "C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'M'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10'/></svg>",
         "x.svg:1:92: path: its data make no sense from '10'; right would be commands M L H V C S "
         "Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'L'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L50'/></svg>",
         "x.svg:1:92: path: its data make no sense from '50'; right would be commands M L H V C S "
         "Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 H'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'H'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 V x'/></svg>",
         "x.svg:1:92: path: its data make no sense from ' x'; right would be commands M L H V C S "
         "Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 X5'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'X5'; right would be commands M L H V C S "
         "Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 10e'/></svg>",
         "x.svg:1:92: path: its data make no sense from ' 10e'; right would be commands M L H V C "
         "S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 C'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'C'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 C1 2 3 4 5'/></svg>",
         "x.svg:1:92: path: its data make no sense from '1 2 3 4 5'; right would be commands M L H "
         "V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 S1 2 3'/></svg>",
         "x.svg:1:92: path: its data make no sense from '1 2 3'; right would be commands M L H V C "
         "S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 Q1 2 3'/></svg>",
         "x.svg:1:92: path: its data make no sense from '1 2 3'; right would be commands M L H V C "
         "S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 T'/></svg>",
         "x.svg:1:92: path: its data make no sense from 'T'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 T1'/></svg>",
         "x.svg:1:92: path: its data make no sense from '1'; right would be commands M L H V C S Q "
         "T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 A5 5'/></svg>",
         "x.svg:1:92: path: its data make no sense from '5 5'; right would be commands M L H V C S "
         "Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 A5 5 0 2 0 20 20'/></svg>",
         "x.svg:1:92: path: its data make no sense from '5 5 0 2 0 20 20'; right would be commands "
         "M L H V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 A5 5 0 0 x 20 20'/></svg>",
         "x.svg:1:92: path: its data make no sense from '5 5 0 0 x 20 20'; right would be commands "
         "M L H V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 A5 5 0 0 1 20'/></svg>",
         "x.svg:1:92: path: its data make no sense from '5 5 0 0 1 20'; right would be commands M "
         "L H V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 A5 5 0 0 1'/></svg>",
         "x.svg:1:92: path: its data make no sense from '5 5 0 0 1'; right would be commands M L H "
         "V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M "
         "10000000000000000000000000000000000000000000000000000000000000000000000000000000000000000"
         "00000000000000000000000000000000000000000000000000000000000000000000000000000000000000000"
         "00000000000000000000000000000000000000000000000000000000000000000000000000000000000000000"
         "00000000000000000000000000000000000000000000000000000000000000000000000000000000000000000"
         "000000000000000000000000000000000000000000000 3'/></svg>",
         "x.svg:1:92: path: its data make no sense from ' 10000000000000000000000'; right would be "
         "commands M L H V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M1e999 3 L4 4'/></svg>",
         "x.svg:1:92: path: its data make no sense from '1e999 3 L4 4'; right would be commands M "
         "L H V C S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 C10 30 50 30 50 10Z'/></svg>",
         "480 mm2 within 40 x 15 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 S30 40 50 10Z'/></svg>",
         "360 mm2 within 40 x 13.33 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 C10 30 50 30 50 10 S 90 -10 90 40 L10 40Z'/></svg>",
         "2160 mm2 within 80 x 42.5 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 s 0 20 20 20 s 20 0 20 20 L10 50Z'/></svg>",
         "860 mm2 within 40 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 Q30 40 50 10Z'/></svg>",
         "400 mm2 within 40 x 15 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 Q30 40 50 10 T90 10 L90 60 H10Z'/></svg>",
         "4000 mm2 within 80 x 65 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 T50 40 L10 40Z'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 t10 10 t10 0 L30 50 L10 50Z'/></svg>",
         "616.67 mm2 within 20 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A20 20 0 0 1 50 30 A20 20 0 0 1 10 30Z'/></svg>",
         "1256.6 mm2 within 40 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 a20 10 30 1 0 30 0Z'/></svg>",
         "364.03 mm2 within 34.26 x 14.89 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A0 20 0 0 1 50 30 L50 60Z'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A20 0 0 0 1 50 30 L50 60Z'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A20 20 0 0 1 10 30 L50 30 L50 60Z'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A20 20 0 0 1 10 40 L50 40 L50 30Z'/></svg>",
         "395.75 mm2 within 40 x 10 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 30 A5 5 0 0 1 50 30Z'/></svg>",
         "628.32 mm2 within 40 x 20 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10H50V40H10Z M20 20H30V30H20Z'/></svg>",
         "1100 mm2 within 40 x 30 mm, 1 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10H50V40H10ZM15 15'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10H50V40H10Z m50 0 H70V40H60Z'/></svg>",
         "x.svg: a second plate beside the first, at (60, -10) mm; right would be one outline with "
         "its holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L20 10 L20 20 L10 20 L10 10 L10 10Z'/></svg>",
         "100 mm2 within 10 x 10 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10H50V40H10V9.999'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10Z'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M0 0H.01V.01H0Z'/></svg>",
         "x.svg: the outline is 0.01 x 0.01 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M0 0H9999V9999H0Z'/></svg>",
         "x.svg: the outline is 9999 x 9999 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M1e7 0 H2e7 V9Z'/></svg>",
         "x.svg: a place that is no number or over 100 m from the origin; right would be a plate "
         "near the drawing's origin"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L50 40 L50 10 L10 40Z'/></svg>",
         "x.svg: the outline crosses itself near (30, -25) mm; right would be loops that neither "
         "cross nor touch, each drawn once"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 L50 10 L90 10Z'/></svg>",
         "x.svg: the outline is 80 x 0 mm; right would be 0.1 .. 2000 mm (does the file state its "
         "unit?)"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path d='M10 10 . 20'/></svg>",
         "x.svg:1:92: path: its data make no sense from ' . 20'; right would be commands M L H V C "
         "S Q T A Z with their numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect x='10' y='10' width='40' height='30'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' rx='5'/></svg>",
         "1178.5 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' ry='5'/></svg>",
         "1178.5 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' rx='0' ry='5'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' rx='5' ry='0'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' rx='99'/></svg>",
         "942.48 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='-40' height='30'/></svg>",
         "x.svg:1:92: a rectangle of -40 x 30; right would be 0 or more"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='-30'/></svg>",
         "x.svg:1:92: a rectangle of 40 x -30; right would be 0 or more"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='0' height='30'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='0'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='4ft' height='3'/></svg>",
         "x.svg:1:92: width is '4ft'; right would be a length like 12.5 or 12.5mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40 ' height='3cm'/></svg>",
         "4535.4 mm2 within 40 x 113.4 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='1in' height='96px'/></svg>",
         "9216 mm2 within 96 x 96 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='72pt' height='6pc'/></svg>",
         "9216 mm2 within 96 x 96 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><circle cx='30' cy='30' r='20'/></svg>",
         "1256.6 mm2 within 40 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><circle r='-2'/></svg>",
         "x.svg:1:92: a radius below 0; right would be greater"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><circle r='0'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><ellipse rx='20' ry='10'/></svg>",
         "628.32 mm2 within 40 x 20 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><ellipse rx='20' ry='-1'/></svg>",
         "x.svg:1:92: a radius below 0; right would be greater"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><ellipse rx='20' ry='0'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><ellipse rx='x' ry='0'/></svg>",
         "x.svg:1:92: rx is 'x'; right would be a length like 12.5 or 12.5mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><line x1='0' y1='0' x2='40' y2='0'/><line x1='40' y1='0' x2='40' y2='30'/><line "
         "x1='40' y1='30' x2='0' y2='0'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><line x1='q'/></svg>",
         "x.svg:1:92: x1 is 'q'; right would be a length like 12.5 or 12.5mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polygon points='0,0 40,0 40,30'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polygon points='0,0 40,0 40'/></svg>",
         "x.svg:1:92: polygon: its points make no sense from '40'; right would be pairs of "
         "numbers"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polygon points=''/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polygon/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><path/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polyline points='0,0 40,0 40,30 0,0'/></svg>",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><polyline points='0,0 40,0 40,30'/></svg>",
         "x.svg: the outline is open at (0, 0) mm, the next end is at (40, -30) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><text>x</text></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='translate(10)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='translate(10,20) scale(2)'><rect width='40' height='30'/></g></svg>",
         "4800 mm2 within 80 x 60 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='scale(2 0.5)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 80 x 15 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate(90)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 30 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate(90 20 20)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 30 x 40 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewX(45)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 70 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewY(45)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 40 x 70 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='matrix(1 0 0 1 5 5)'><rect width='40' height='30'/></g></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='matrix(1 0)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'matrix(1 0)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='translate()'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'translate()'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='translate(1 2 3)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'translate(1 2 3)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='scale()'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'scale()'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='scale(1 2 3)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'scale(1 2 3)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate()'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'rotate()'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate(1 2)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'rotate(1 2)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewX()'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'skewX()'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewX(1 2)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'skewX(1 2)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewY()'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'skewY()'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='skewY(1 2)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'skewY(1 2)'; right would be matrix, "
         "translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='turn(3)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'turn(3)'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='3'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from '3'; right would be matrix, translate, scale, "
         "rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate 3'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'rotate 3'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate(3'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'rotate(3'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='rotate(x)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'rotate(x)'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='Rotate(3)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'Rotate(3)'; right would be matrix, translate, "
         "scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g transform='matrix(1 0 0 1 5 5 6)'><rect width='40' height='30'/></g></svg>",
         "x.svg:1:92: transform makes no sense from 'matrix(1 0 0 1 5 5 6)'; right would be "
         "matrix, translate, scale, rotate, skewX or skewY"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' display='none'/></svg>",
         "x.svg: no outline in it; right would be closed lines"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g display='none'><rect width='40' height='30'/></g><circle r='9'/></svg>",
         "254.47 mm2 within 18 x 18 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><g style='display:none'><rect width='40' height='30'/></g><circle r='9'/></svg>",
         "254.47 mm2 within 18 x 18 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30' display='inline'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg", "<svg xmlns='http://www.w3.org/2000/svg' ><rect width='40' height='30'/></svg>",
         "84.005 mm2 within 10.58 x 7.937 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm'><rect width='40' "
         "height='30'/></svg>",
         "84.005 mm2 within 10.58 x 7.937 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' height='100mm'><rect width='40' "
         "height='30'/></svg>",
         "84.005 mm2 within 10.58 x 7.937 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100%' height='100mm'><rect width='40' "
         "height='30'/></svg>",
         "84.005 mm2 within 10.58 x 7.937 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='auto' height='auto' viewBox='0 0 100 "
         "100'><rect width='40' height='30'/></svg>",
         "84.005 mm2 within 10.58 x 7.937 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='0' height='100mm'><rect width='40' "
         "height='30'/></svg>",
         "x.svg:1:1: width is '0'; right would be a length above 0, like 120mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='x'><rect width='40' "
         "height='30'/></svg>",
         "x.svg:1:1: height is 'x'; right would be a length above 0, like 120mm"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 100'><rect width='40' "
         "height='30'/></svg>",
         "x.svg:1:1: viewBox is '0 0 100'; right would be four numbers, the last two above 0"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 0 100'><rect width='40' "
         "height='30'/></svg>",
         "x.svg:1:1: viewBox is '0 0 0 100'; right would be four numbers, the last two above 0"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 100 -1'><rect width='40' "
         "height='30'/></svg>",
         "x.svg:1:1: viewBox is '0 0 100 -1'; right would be four numbers, the last two above 0"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' viewBox='a'><rect width='40' height='30'/></svg>",
         "x.svg:1:1: viewBox is 'a'; right would be four numbers, the last two above 0"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='200mm' viewBox='0 0 100 "
         "100'><rect width='40' height='30'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='200mm' viewBox='0 0 100 "
         "100' preserveAspectRatio='none'><rect width='40' height='30'/></svg>",
         "2400 mm2 within 40 x 60 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='200mm' viewBox='0 0 100 "
         "100' preserveAspectRatio='xMidYMid slice'><rect width='40' height='30'/></svg>",
         "4800 mm2 within 80 x 60 mm, 0 holes"},
        {"x.svg",
         "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='200mm' viewBox='0 0 100 "
         "100' preserveAspectRatio='xMidYMid meet'><rect width='40' height='30'/></svg>",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.svg", "", "x.svg:1:1: not well-formed XML: no element found"},
        {"x.svg", "<svg", "x.svg:1:1: not well-formed XML: unclosed token"},
        {"x.svg", "<html/>", "x.svg:1:1: not SVG: it begins with <html>; right would be <svg>"},
        {"x.svg", "<svg xmlns='http://www.w3.org/2000/svg'><rect width='40' height='30'></svg>",
         "x.svg:1:72: not well-formed XML: mismatched tag"},
    };
    expect(sizeof cases / sizeof *cases, cases);
}

static void entities_of_a_dxf(void **state)
{
    (void)state;
    static const drawing_case cases[] = {
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\r\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n"
         "11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\r\n10\n0\n20\n30\n11\n0\n"
         "21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n 0\nLINE \n\t10 "
         "\t\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20"
         "\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n15\n0\nENDSEC\n0\nEOF\n",
         "706.86 mm2 within 30 x 30 mm, 0 holes"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: CIRCLE: radius 0 or less; right would be greater"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n-3\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: CIRCLE: radius 0 or less; right would be greater"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: CIRCLE: radius 0 or less; right would be greater"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\nx\n20\n20\n40\n15\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:8: 'x' for code 10; right would be a finite number"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n1000000000000000000000000000000000000000000000000"
         "000000000000000000000000000000000000000000\n20\n20\n40\n15\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:8: '10000000000000000000000000000000' for code 10; right would be a finite number"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n15\n210\n0\n220\n0\n230\n-"
         "1\n0\nENDSEC\n0\nEOF\n",
         "706.86 mm2 within 30 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n15\n210\n1\n220\n0\n230\n0\n0\nEN"
         "DSEC\n0\nEOF\n",
         "x.dxf:6: CIRCLE: drawn in a tilted plane; right would be a flat drawing"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n20\n20\n20\n40\n15\n210\n0\n220\n0\n230\n0\n0\nEN"
         "DSEC\n0\nEOF\n",
         "x.dxf:6: CIRCLE: drawn in a tilted plane; right would be a flat drawing"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\nnan\n20\n20\n40\n15\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:8: 'nan' for code 10; right would be a finite number"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n \n20\n20\n40\n15\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:8: '' for code 10; right would be a finite number"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nARC\n10\n0\n20\n0\n40\n15\n50\n0\n51\n180\n0\nLINE\n10\n-"
         "15\n20\n0\n11\n15\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "353.43 mm2 within 30 x 15 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nARC\n10\n0\n20\n0\n40\n15\n50\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: ARC: without its two angles (codes 50 and 51)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nARC\n10\n0\n20\n0\n40\n15\n51\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: ARC: without its two angles (codes 50 and 51)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nARC\n10\n0\n20\n0\n40\n15\n50\n180\n51\n0\n0\nLINE\n10\n-"
         "15\n20\n0\n11\n15\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "353.43 mm2 within 30 x 15 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0."
         "5\n0\nENDSEC\n0\nEOF\n",
         "628.32 mm2 within 40 x 20 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0.5\n41\n0\n42\n3."
         "14159265\n0\nLINE\n10\n-20\n20\n0\n11\n20\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "314.16 mm2 within 40 x 10 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n0\n21\n0\n40\n0."
         "5\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: ELLIPSE: an axis of no length; right would be greater"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0\n0\nENDSEC\n0\nEO"
         "F\n",
         "x.dxf:6: ELLIPSE: an axis of no length; right would be greater"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0."
         "5\n210\n1\n230\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: ELLIPSE: drawn in a tilted plane; right would be a flat drawing"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0.5\n230\n-"
         "1\n0\nENDSEC\n0\nEOF\n",
         "628.32 mm2 within 40 x 20 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n0\n20\n0\n11\n20\n21\n0\n40\n0."
         "5\n41\n1\n42\n1\n0\nENDSEC\n0\nEOF\n",
         "628.32 mm2 within 40 x 20 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n1\n10\n40\n20\n0\n42\n1"
         "\n0\nENDSEC\n0\nEOF\n",
         "1256.6 mm2 within 40 x 40 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n1e7\n10\n40\n20\n0\n0\nE"
         "NDSEC\n0\nEOF\n",
         "x.dxf:6: LWPOLYLINE: a bulge over 1e6; right would be 1 for half a circle"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n1e-"
         "6\n10\n40\n20\n0\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n20\n5\n42\n1\n10\n0\n20\n0\n10\n40\n20\n0"
         "\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n0\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is open at (0, 0) mm, the next end is at (40, 30) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: no outline in it; right would be closed lines"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n1\n10\n0\n20\n0\n10\n40"
         "\n20\n0\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n42\n0."
         "4\n10\n0\n20\n40\n10\n30\n20\n40\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline crosses itself near (4.13394, 5.51192) mm; right would be loops that "
         "neither cross nor touch, each drawn once"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n210\n1\n230\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: LWPOLYLINE: drawn in a tilted plane; right would be a flat drawing"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n70\n99999999\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is open at (0, 0) mm, the next end is at (0, 30) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1e9\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20"
         "\n30\n10\n0\n20\n0\n0\nENDSEC\n0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n230\n-1\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n67\n1\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: no outline in it; right would be closed lines"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n67\n1\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40\n"
         "20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nSEQEND\n0\nENDSEC\n0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40\n"
         "20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: has no end; right would be a SEQEND after its last corner"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40\n"
         "20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nVERTEX\n70\n16\n10\n9\n20\n9\n0\nSEQEND\n0\nENDSEC\n"
         "0\nEOF\n",
         "600 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n8\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40\n"
         "20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nSEQEND\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: not flat; right would be a flat polyline"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n16\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40"
         "\n20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: not flat; right would be a flat polyline"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n64\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40"
         "\n20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: not flat; right would be a flat polyline"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n67\n1\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n1"
         "0\n40\n20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nSEQEND\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n40\n"
         "20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nLINE\n10\n5\n20\n5\n11\n6\n21\n6\n0\nENDSEC\n0\nEOF"
         "\n",
         "x.dxf: the outline is open at (5, 5) mm, the next end is at (6, 6) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n210\n1\n230\n0\n0\nVERTEX\n10\n0\n20\n0\n0\n"
         "VERTEX\n10\n40\n20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nSEQEND\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: drawn in a tilted plane; right would be a flat drawing"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n70\n1\n210\n1\n230\n0\n0\nVERTEX\n10\n0\n20\n0\n0\n"
         "VERTEX\n10\n40\n20\n0\n0\nVERTEX\n10\n40\n20\n30\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: POLYLINE: has no end; right would be a SEQEND after its last corner"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nSPLINE\n10\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: SPLINE: is not read; right would be lines, arcs, circles, ellipses and "
         "polylines (blocks taken apart, splines made polylines)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGLONGL"
         "ONGLONGLONGLONGLONG\n10\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:6: LONGLONGLONGLONGLONGLONGLONGLONG: is not read; right would be lines, arcs, "
         "circles, ellipses and polylines (blocks taken apart, splines made polylines)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nTEXT\n1\nwords\n10\n5\n20\n5\n0\nMTEXT\n10\nq\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:5: not a DXF file: ''; right would be the number of a code"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nCIRCLE\n10\n20\n20\n15\n40\n5\n0\nENDSEC\n0\nEOF\n",
         "1121.5 mm2 within 40 x 30 mm, 1 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nCIRCLE\n10\n99\n20\n15\n40\n5\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: a second plate beside the first, at (104, 15) mm; right would be one outline with "
         "its holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n5\nh8\n300\nx\n1000\ny\n-5\nz\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n",
         "x.dxf:44: cut short: its ENTITIES have no end; right would be ENDSEC and EOF"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0",
         "x.dxf:44: cut short: its ENTITIES have no end; right would be ENDSEC and EOF"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0",
         "x.dxf:45: cut short: code 0 has no value"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n99999\n3\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40"
         "\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n"
         "11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:5: not a DXF file: '99999'; right would be the number of a code"},
        {"x.dxf",
         "-9\nx\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20"
         "\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n"
         "0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:1: not a DXF file: '-9'; right would be the number of a code"},
        {"x.dxf",
         "zero\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0"
         "\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n"
         "21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:1: not a DXF file: 'zero'; right would be the number of a code"},
        {"x.dxf",
         "0x\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n1"
         "1\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21"
         "\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:1: not a DXF file: '0x'; right would be the number of a code"},
        {"x.dxf",
         "000000000000000000\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n"
         "10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20"
         "\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:1: not a DXF file: '000000000000000000'; right would be the number of a code"},
        {"x.dxf",
         "0\nSECTION\n5\n1\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20"
         "\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n"
         "0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nBLOCKS\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11\n"
         "40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n0"
         "\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: no outline in it; right would be closed lines"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nEOF\n0\nLINE\n10",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0\n11"
         "\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n11\n0\n21\n"
         "0\n0\nENDSEC",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n0\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n1\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "7.7419e+05 mm2 within 1016 x 762 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n2\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 1.219e+04 x 9144 mm; right would be 0.1 .. 2000 mm (does the file "
         "state its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1200 mm2 within 40 x 30 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n5\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "1.2e+05 mm2 within 400 x 300 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n6\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 4e+04 x 3e+04 mm; right would be 0.1 .. 2000 mm (does the file "
         "state its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n9\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "0.77419 mm2 within 1.016 x 0.762 mm, 0 holes"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n13\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n"
         "0\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLIN"
         "E\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 0.04 x 0.03 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n14\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n"
         "0\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLIN"
         "E\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 4000 x 3000 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n3\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:12: $INSUNITS is 3; right would be 4 (millimetres), 1 (inches), 5 or 6 "
         "(centimetres, metres)"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\nx\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0"
         "\n0\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE"
         "\n10\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:12: 'x' for code 70; right would be a finite number"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$"
         "INSUNITS\n70\n10000000000000000000000000000000000000000000000000000000000000000000000\n0"
         "\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40"
         "\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n10\n0\n20\n30\n"
         "11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf:12: '10000000000000000000000000000000' for code 70; right would be a finite "
         "number"},
        {"x.dxf",
         "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n1\nx\n70\n1\n9\n$"
         "OTHER\n70\n1\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0"
         "\nLINE\n10\n40\n20\n0\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n30\n0\nLINE\n1"
         "0\n0\n20\n30\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "7.7419e+05 mm2 within 1016 x 762 mm, 0 holes"},
        {"x.dxf", "", "x.dxf: empty; right would be a DXF drawing"},
        {"x.dxf", "\n", "x.dxf: empty; right would be a DXF drawing"},
        {"x.dxf", "\n\n", "x.dxf:1: not a DXF file: ''; right would be the number of a code"},
        {"x.dxf", "0", "x.dxf:1: cut short: code 0 has no value"},
        {"x.dxf", "Some CAD Binary DXF\n",
         "x.dxf: a binary DXF file; right would be one saved as text"},
        {"x.dxf", "AutoCAD Binary\nx\n",
         "x.dxf:1: not a DXF file: 'AutoCAD Binary'; right would be the number of a code"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n0\n40\n20\n0\nCIRCLE\n10\n0\n20\n0\n40\n10"
         "\n0\nCIRCLE\n10\n0\n20\n0\n40\n5\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: a loop within a hole, at (5, 0) mm; right would be one outline with its holes"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n3"
         "0\n10\n0\n20\n30\n0\nLINE\n10\n200\n20\n0\n11\n240\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is open at (200, 0) mm, the next end is at (240, 0) mm; right would "
         "be closed loops, ends within 0.01 mm"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n40\n20\n0."
         "05\n11\n40\n21\n30\n0\nLINE\n10\n40\n20\n30\n11\n0\n21\n0.02\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is open at (0, 0) mm, the next end is at (0, 0.02) mm; right would be "
         "closed loops, ends within 0.01 mm"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n40\n21\n0\n0\nLINE\n10\n0\n20\n0\n11"
         "\n40\n21\n0\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: a loop at (0, 0) mm encloses no area; right would be an outline of three sides or "
         "more"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n0\n40\n1e6\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: a place that is no number or over 100 m from the origin; right would be a plate "
         "near the drawing's origin"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n1e9\n40\n10\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: a place that is no number or over 100 m from the origin; right would be a plate "
         "near the drawing's origin"},
        {"x.dxf", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n10\n0\n20\n0\n40\n1e-4\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: no outline in it; right would be closed lines"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n0"
         ".0001\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 40 x 0.0001 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n0.001\n20\n0\n10\n0."
         "001\n20\n40\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 0.001 x 40 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
        {"x.dxf",
         "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n0\n20\n0\n10\n40\n20\n0\n10\n40\n20\n9"
         "000\n10\n0\n20\n9000\n0\nENDSEC\n0\nEOF\n",
         "x.dxf: the outline is 40 x 9000 mm; right would be 0.1 .. 2000 mm (does the file state "
         "its unit?)"},
    };
    expect(sizeof cases / sizeof *cases, cases);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(paths_and_shapes_of_an_svg),
        cmocka_unit_test(entities_of_a_dxf),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
