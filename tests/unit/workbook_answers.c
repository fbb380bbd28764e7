/* rooms: store craft physics base; libraries: minizip */
/* Workbooks of one sheet, cell by cell and part by part: the text that is read of each, or the line that refuses
 * it, word for word. The format is ECMA-376, from memory. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "store/workbook.h"
#include "zip_of.h"

typedef struct book_case {
    const char *answer;
    const char *workbook, *relations, *styles, *strings, *sheet; /* NULL: the usual one */
    const char *wanted;
    bool comma;
} book_case;

static const char WORKBOOK[] = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"Parts\" "
                               "sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>";
static const char RELATIONS[] = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                                "Target=\"worksheets/sheet1.xml\"/></Relationships>";
static const char STYLES[] =
    "<styleSheet xmlns=\"n\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"0.0&quot; "
    "g&quot;\"/><numFmt numFmtId=\"165\" formatCode=\"yyyy-mm-dd\"/></numFmts><cellXfs><xf "
    "numFmtId=\"0\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/><xf numFmtId=\"13\"/><xf "
    "numFmtId=\"14\"/><xf numFmtId=\"17\"/><xf numFmtId=\"18\"/><xf numFmtId=\"22\"/><xf "
    "numFmtId=\"9\"/><xf numFmtId=\"10\"/><xf numFmtId=\"11\"/></cellXfs></styleSheet>";
/* Formats of numbers, by place: units, percent, dates, and what is none of them. */
static const char NUMBER_STYLES[] =
    "<styleSheet xmlns=\"n\"><numFmts><numFmt numFmtId=\"200\" formatCode=\"0 "
    "&quot;g&quot;\"/><numFmt numFmtId=\"201\" formatCode=\"0&quot; g &quot;\"/><numFmt "
    "numFmtId=\"202\" formatCode=\"0\\ \\g\"/><numFmt numFmtId=\"203\" "
    "formatCode=\"#,##0.0 &quot;mm&quot;\"/><numFmt numFmtId=\"204\" "
    "formatCode=\"?0&quot;g/cm&quot;\"/><numFmt numFmtId=\"205\" "
    "formatCode=\"0&quot;g1&quot;\"/><numFmt numFmtId=\"206\" formatCode=\"0 "
    "&quot;&quot;\"/><numFmt numFmtId=\"207\" formatCode=\"&quot;about &quot;0\"/><numFmt "
    "numFmtId=\"208\" formatCode=\"0.0%\"/><numFmt numFmtId=\"209\" formatCode=\"0%&quot; "
    "of&quot;\"/><numFmt numFmtId=\"210\" formatCode=\"[Red]0&quot; "
    "g&quot;;[Blue]-0\"/><numFmt numFmtId=\"211\" formatCode=\"[$EUR]0\"/><numFmt "
    "numFmtId=\"212\" formatCode=\"[h\"/><numFmt numFmtId=\"213\" "
    "formatCode=\"yyyy-mm-dd\"/><numFmt numFmtId=\"214\" "
    "formatCode=\"DD.MM.YYYY\"/><numFmt numFmtId=\"215\" formatCode=\"d\"/><numFmt "
    "numFmtId=\"216\" formatCode=\"0 &quot;d&quot;\"/><numFmt numFmtId=\"217\" "
    "formatCode=\"*-0\"/><numFmt numFmtId=\"218\" formatCode=\"_(0\"/><numFmt "
    "numFmtId=\"219\" formatCode=\"*\"/><numFmt numFmtId=\"220\" "
    "formatCode=\"0\\\"/><numFmt numFmtId=\"221\" formatCode=\"0&quot;open\"/><numFmt "
    "numFmtId=\"222\" formatCode=\"General\"/><numFmt numFmtId=\"223\" formatCode=\"0     "
    "                                   &quot;g&quot;\"/><numFmt numFmtId=\"224\" "
    "formatCode=\"0&quot;gggggggggggggggggggggggggggggggggggggggg&quot;\"/></"
    "numFmts><cellXfs><xf numFmtId=\"200\"/><xf numFmtId=\"201\"/><xf "
    "numFmtId=\"202\"/><xf numFmtId=\"203\"/><xf numFmtId=\"204\"/><xf "
    "numFmtId=\"205\"/><xf numFmtId=\"206\"/><xf numFmtId=\"207\"/><xf "
    "numFmtId=\"208\"/><xf numFmtId=\"209\"/><xf numFmtId=\"210\"/><xf "
    "numFmtId=\"211\"/><xf numFmtId=\"212\"/><xf numFmtId=\"213\"/><xf "
    "numFmtId=\"214\"/><xf numFmtId=\"215\"/><xf numFmtId=\"216\"/><xf "
    "numFmtId=\"217\"/><xf numFmtId=\"218\"/><xf numFmtId=\"219\"/><xf "
    "numFmtId=\"220\"/><xf numFmtId=\"221\"/><xf numFmtId=\"222\"/><xf "
    "numFmtId=\"223\"/><xf numFmtId=\"224\"/><xf/></cellXfs></styleSheet>";
static const char STRINGS[] = "<sst xmlns=\"n\"><si><t>name</t></si><si><t>mass (g)</t></si></sst>";
static const char SHEET[] = "<worksheet xmlns=\"n\"><sheetData></sheetData></worksheet>";

static const char *or_usual(const char *part, const char *usual)
{
    return part ? part : usual;
}

static void say(const book_case *one, pare_text *answer)
{
    const zip_entry entries[] = {
        {"[Content_Types].xml", "<Types/>", 0},
        {"xl/workbook.xml", or_usual(one->workbook, WORKBOOK), 0},
        {"xl/_rels/workbook.xml.rels", or_usual(one->relations, RELATIONS), 0},
        {"xl/styles.xml", or_usual(one->styles, STYLES), 0},
        {"xl/sharedStrings.xml", or_usual(one->strings, STRINGS), 0},
        {"xl/worksheets/sheet1.xml", or_usual(one->sheet, SHEET), 0}};
    zip_bytes z = zip_of(sizeof entries / sizeof entries[0], entries, 6);
    char path[] = "/tmp/pare-book-XXXXXX";
    const int made = mkstemp(path);
    assert_true(made >= 0);
    assert_int_equal(write(made, z.at, z.length), (ssize_t)z.length);
    close(made);
    pare_workbook_table table;
    pare_error err = {0};
    pare_arena *arena = pare_arena_open();
    if (pare_workbook_read(path, one->wanted, one->comma, arena, &table, &err) == PARE_OK)
        pare_text_printf(answer, "%.*s", (int)table.length, table.csv);
    else
        pare_text_add(answer, strncmp(err.text, path, strlen(path)) == 0 ? err.text + strlen(path)
                                                                         : err.text);
    pare_arena_close(arena);
    unlink(path);
    free(z.at);
}

static void expect(size_t count, const book_case cases[])
{
    for (size_t i = 0; i < count; i++) {
        pare_text text = {0};
        say(&cases[i], &text);
        const char *answer = text.bytes ? text.bytes : "";

        if (strcmp(answer, cases[i].answer) != 0)
            fail_msg("case %zu says\n%s\nand not\n%s", i, answer, cases[i].answer);
        pare_text_free(&text);
    }
}

static void cells_of_a_sheet_become_fields(void **state)
{
    (void)state;
    static const book_case cases[] = {
        {.answer = "12\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>12</v></c></row></sheetData></worksheet>"},
        {.answer = "12.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>12.5</v></c></row></sheetData></worksheet>"},
        {.answer = "1000\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1e3</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: no number, though the cell says so; right would be one",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>x</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v></v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: no number, though the cell says so; right would be one",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>nan</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: no number, though the cell says so; right would be one",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1e999</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: no number, though the cell says so; right would be one",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\"><v>12 "
                  "</v></c></row></sheetData></worksheet>"},
        {.answer = "name\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "mass (g)\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>9</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>-1</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>x</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v></v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>1x</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"></c></row></sheetData></worksheet>"},
        {.answer = "yes\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"b\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "no\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"b\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "no\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"b\"><v>x</v></c></row></sheetData></worksheet>"},
        {.answer = "n/a\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"e\"><v>#N/A</v></c></row></sheetData></worksheet>"},
        {.answer = "#REF!\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"e\"><v>#REF!</v></c></row></sheetData></worksheet>"},
        {.answer = "2026-03-01\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"d\"><v>2026-03-01T10:00</v></c></row></sheetData></worksheet>"},
        {.answer = "2026\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"d\"><v>2026</v></c></row></sheetData></worksheet>"},
        {.answer = "text\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>text</v></c></row></sheetData></worksheet>"},
        {.answer = "\"a,b\"\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>a,b</v></c></row></sheetData></worksheet>"},
        {.answer = "\"a\"\"b\"\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>a\"b</v></c></row></sheetData></worksheet>"},
        {.answer = "\"two lines\"\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>two&#10;lines</v></c></row></sheetData></worksheet>"},
        {.answer = "\"tab in\"\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>tab&#9;in</v></c></row></sheetData></worksheet>"},
        {.answer = "A\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_x0041_</v></c></row></sheetData></worksheet>"},
        {.answer = "\xC3\xA9\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_x00E9_</v></c></row></sheetData></worksheet>"},
        {.answer = "\xE2\x82\xAC\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_x20AC_</v></c></row></sheetData></worksheet>"},
        {.answer = "_xD800_\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_xD800_</v></c></row></sheetData></worksheet>"},
        {.answer = "_x0000_\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_x0000_</v></c></row></sheetData></worksheet>"},
        {.answer = "_x004\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_x004</v></c></row></sheetData></worksheet>"},
        {.answer = "\xEF\xBF\xBE\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_xFFFE_</v></c></row></sheetData></worksheet>"},
        {.answer = "\xEE\x80\x80\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>_xE000_</v></c></row></sheetData></worksheet>"},
        {.answer = "5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"n\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"zebra\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"0\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"1\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"3\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"4\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"5\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"6\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"7\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "50 %\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"8\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "50 %\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"9\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"10\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"11\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"12\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"13\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"99\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"x\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "2023-03-15\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>45000.25</v></c></row></sheetData></worksheet>"},
        {.answer = "1900-02-28\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>59</v></c></row></sheetData></worksheet>"},
        {.answer = "1900-02-28\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>60</v></c></row></sheetData></worksheet>"},
        {.answer = "1900-03-01\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>61</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "2958466\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>2958466</v></c></row></sheetData></worksheet>"},
        {.answer = "-3\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>-3</v></c></row></sheetData></worksheet>"},
        {.answer = "1.2340\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1.234</v></c></row></sheetData></worksheet>"},
        {.answer = "0.1250\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>0.125</v></c></row></sheetData></worksheet>"},
        {.answer = "1234.5670 g\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"1\"><v>1234.567</v></c></row></sheetData></worksheet>"},
        {.answer = "\"0,1250\"\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>0.125</v></c></row></sheetData></worksheet>",
         .comma = true},
        {.answer = "1904-01-02\n",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><workbookPr date1904=\"1\"/><sheets><sheet "
             "name=\"Parts\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1904-01-02\n",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><workbookPr date1904=\"true\"/><sheets><sheet "
             "name=\"Parts\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1900-01-01\n",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><workbookPr date1904=\"0\"/><sheets><sheet "
             "name=\"Parts\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1900-01-01\n",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><workbookPr/><sheets><sheet "
                     "name=\"Parts\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "3\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><f>1+2</f><v>3</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a formula without its value; right would be the workbook "
                   "saved by a spreadsheet",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><f>1+2</f></c></row></sheetData></worksheet>"},
        {.answer = "in\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"inlineStr\"><is><t>in</t><rPh><t>aloud</t></rPh></is></c></row></"
                  "sheetData></worksheet>"},
        {.answer = "inline\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"inlineStr\"><is><r><t>in</t></r><r><t>line</t></r></is></c></row></"
                  "sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: over 16 KiB of text; right would be less",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
             "t=\"str\"><v>"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "</v></c></row></sheetData></worksheet>"},
        {.answer = "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
                   "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
                   "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
                   "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww\n",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
             "t=\"str\"><v>"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
             "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww</v></c></row></sheetData></worksheet>"},
        {.answer = "5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = ",5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"B1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = ",,,,,,,,,,,,,,,,,,,,,,,,,5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"Z1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = ",,,,,,,,,,,,,,,,,,,,,,,,,,5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"AA1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,"
                   ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,"
                   ",,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,5\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"GR1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell GS1: beyond 200 columns; right would be fewer",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"GS1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell XFD1: beyond 200 columns; right would be fewer",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"XFD1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"a1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"ABCD1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A-1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A:1\"><v>5</v></c></row></sheetData></worksheet>"},
        {.answer = "1,2\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row "
                  "r=\"1\"><c><v>1</v></c><c><v>2</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell B1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"B1\"><v>1</v></c><c "
                  "r=\"A1\"><v>2</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\"><v>1</v></c><c "
                  "r=\"A1\"><v>2</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell 0: another cell behind it that does not follow; right would be "
                   "cells in order",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><c r=\"A1\"><v>1</v></c></sheetData></worksheet>"},
        {.answer = "1\n2,3\n4,\n",
         .sheet = "<worksheet "
                  "xmlns=\"n\"><sheetData><row><c><v>1</v></c></row><row><c><v>2</v></c><c><v>3</"
                  "v></c></row><row><c><v>4</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"3\"></row></sheetData></worksheet>"},
        {.answer = "\n\n1\n\n2\n",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><row r=\"3\"><c r=\"A3\"><v>1</v></c></row><row "
             "r=\"5\"><c r=\"A5\"><v>2</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:72: row '1' after row 2; right would be a later "
                   "one, up to 1048576",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><row r=\"2\"><c r=\"A1\"><v>1</v></c></row><row "
             "r=\"1\"><c r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:72: row '2' after row 2; right would be a later "
                   "one, up to 1048576",
         .sheet =
             "<worksheet xmlns=\"n\"><sheetData><row r=\"2\"><c r=\"A1\"><v>1</v></c></row><row "
             "r=\"2\"><c r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:33: row 'x' after row 0; right would be a later "
                   "one, up to 1048576",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"x\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:33: row '1x' after row 0; right would be a later "
                   "one, up to 1048576",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1x\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:33: row '99999999' after row 0; right would be a "
                   "later one, up to 1048576",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"99999999\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:33: row '0' after row 0; right would be a later "
                   "one, up to 1048576",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"0\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "2\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><v>1</v><f/><t>q</t><c "
                  "r=\"A1\"><v>2</v></c></row></sheetData></worksheet>"},
    };
    expect(sizeof cases / sizeof *cases, cases);
}

static void a_workbook_says_which_sheets_it_has(void **state)
{
    (void)state;
    static const book_case cases[] = {
        {.answer = "1\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "Parts"},
        {.answer = "1\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "parts"},
        {.answer = "1\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "1"},
        {.answer = ": no sheet '2'; there is 'Parts'",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "2"},
        {.answer = ": no sheet '0'; there is 'Parts'",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "0"},
        {.answer = ": no sheet '1x'; there is 'Parts'",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "1x"},
        {.answer = ": no sheet 'Prts'; did you mean 'Parts'?",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "Prts"},
        {.answer = ": no sheet 'zebra'; there is 'Parts'",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "zebra"},
        {.answer = ": no sheet ''; there is 'Parts'",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = ""},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData></sheetData></worksheet>"},
        {.answer = ": nothing in sheet 'Parts'; right would be a row of column names, then a row "
                   "an entry",
         .sheet = "<worksheet xmlns=\"n\"><sheetData></sheetData></worksheet>",
         .wanted = "Parts"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets></sheets></workbook>"},
        {.answer = ": no sheet 'x'; there are none",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets></sheets></workbook>",
         .wanted = "x"},
        {.answer =
             ": xl/workbook.xml:1:41: a sheet without a name or relation; right would be both",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet sheetId=\"1\" "
                     "r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer =
             ": xl/workbook.xml:1:41: a sheet without a name or relation; right would be both",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"\" sheetId=\"1\" "
                     "r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer =
             ": xl/workbook.xml:1:41: a sheet without a name or relation; right would be both",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet "
                     "name="
                     "\"nnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnn"
                     "nnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnn"
                     "nnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnn"
                     "nnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnnn\" "
                     "sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer =
             ": xl/workbook.xml:1:41: a sheet without a name or relation; right would be both",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"Parts\" "
                     "sheetId=\"1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": nothing says where sheet 'Parts' is; right would be a whole workbook",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"Parts\" "
                     "sheetId=\"1\" r:id=\"r9\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1\n",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"Old\" state=\"hidden\" "
             "r:id=\"r1\"/><sheet name=\"Parts\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .workbook = "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"Old\" "
                     "state=\"veryHidden\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet 'zebra'; there are 's0', 's1', 's2', 's3', 's4', 's5', 's6', 's7' "
                   "and others",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"s0\" r:id=\"r1\"/><sheet "
             "name=\"s1\" r:id=\"r1\"/><sheet name=\"s2\" r:id=\"r1\"/><sheet name=\"s3\" "
             "r:id=\"r1\"/><sheet name=\"s4\" r:id=\"r1\"/><sheet name=\"s5\" r:id=\"r1\"/><sheet "
             "name=\"s6\" r:id=\"r1\"/><sheet name=\"s7\" r:id=\"r1\"/><sheet name=\"s8\" "
             "r:id=\"r1\"/><sheet name=\"s9\" r:id=\"r1\"/><sheet name=\"s10\" r:id=\"r1\"/><sheet "
             "name=\"s11\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>",
         .wanted = "zebra"},
        {.answer = ": xl/workbook.xml:1:5931: over 200 sheets; right would be fewer",
         .workbook =
             "<workbook xmlns=\"n\" xmlns:r=\"r\"><sheets><sheet name=\"s0\" r:id=\"r1\"/><sheet "
             "name=\"s1\" r:id=\"r1\"/><sheet name=\"s2\" r:id=\"r1\"/><sheet name=\"s3\" "
             "r:id=\"r1\"/><sheet name=\"s4\" r:id=\"r1\"/><sheet name=\"s5\" r:id=\"r1\"/><sheet "
             "name=\"s6\" r:id=\"r1\"/><sheet name=\"s7\" r:id=\"r1\"/><sheet name=\"s8\" "
             "r:id=\"r1\"/><sheet name=\"s9\" r:id=\"r1\"/><sheet name=\"s10\" r:id=\"r1\"/><sheet "
             "name=\"s11\" r:id=\"r1\"/><sheet name=\"s12\" r:id=\"r1\"/><sheet name=\"s13\" "
             "r:id=\"r1\"/><sheet name=\"s14\" r:id=\"r1\"/><sheet name=\"s15\" "
             "r:id=\"r1\"/><sheet name=\"s16\" r:id=\"r1\"/><sheet name=\"s17\" "
             "r:id=\"r1\"/><sheet name=\"s18\" r:id=\"r1\"/><sheet name=\"s19\" "
             "r:id=\"r1\"/><sheet name=\"s20\" r:id=\"r1\"/><sheet name=\"s21\" "
             "r:id=\"r1\"/><sheet name=\"s22\" r:id=\"r1\"/><sheet name=\"s23\" "
             "r:id=\"r1\"/><sheet name=\"s24\" r:id=\"r1\"/><sheet name=\"s25\" "
             "r:id=\"r1\"/><sheet name=\"s26\" r:id=\"r1\"/><sheet name=\"s27\" "
             "r:id=\"r1\"/><sheet name=\"s28\" r:id=\"r1\"/><sheet name=\"s29\" "
             "r:id=\"r1\"/><sheet name=\"s30\" r:id=\"r1\"/><sheet name=\"s31\" "
             "r:id=\"r1\"/><sheet name=\"s32\" r:id=\"r1\"/><sheet name=\"s33\" "
             "r:id=\"r1\"/><sheet name=\"s34\" r:id=\"r1\"/><sheet name=\"s35\" "
             "r:id=\"r1\"/><sheet name=\"s36\" r:id=\"r1\"/><sheet name=\"s37\" "
             "r:id=\"r1\"/><sheet name=\"s38\" r:id=\"r1\"/><sheet name=\"s39\" "
             "r:id=\"r1\"/><sheet name=\"s40\" r:id=\"r1\"/><sheet name=\"s41\" "
             "r:id=\"r1\"/><sheet name=\"s42\" r:id=\"r1\"/><sheet name=\"s43\" "
             "r:id=\"r1\"/><sheet name=\"s44\" r:id=\"r1\"/><sheet name=\"s45\" "
             "r:id=\"r1\"/><sheet name=\"s46\" r:id=\"r1\"/><sheet name=\"s47\" "
             "r:id=\"r1\"/><sheet name=\"s48\" r:id=\"r1\"/><sheet name=\"s49\" "
             "r:id=\"r1\"/><sheet name=\"s50\" r:id=\"r1\"/><sheet name=\"s51\" "
             "r:id=\"r1\"/><sheet name=\"s52\" r:id=\"r1\"/><sheet name=\"s53\" "
             "r:id=\"r1\"/><sheet name=\"s54\" r:id=\"r1\"/><sheet name=\"s55\" "
             "r:id=\"r1\"/><sheet name=\"s56\" r:id=\"r1\"/><sheet name=\"s57\" "
             "r:id=\"r1\"/><sheet name=\"s58\" r:id=\"r1\"/><sheet name=\"s59\" "
             "r:id=\"r1\"/><sheet name=\"s60\" r:id=\"r1\"/><sheet name=\"s61\" "
             "r:id=\"r1\"/><sheet name=\"s62\" r:id=\"r1\"/><sheet name=\"s63\" "
             "r:id=\"r1\"/><sheet name=\"s64\" r:id=\"r1\"/><sheet name=\"s65\" "
             "r:id=\"r1\"/><sheet name=\"s66\" r:id=\"r1\"/><sheet name=\"s67\" "
             "r:id=\"r1\"/><sheet name=\"s68\" r:id=\"r1\"/><sheet name=\"s69\" "
             "r:id=\"r1\"/><sheet name=\"s70\" r:id=\"r1\"/><sheet name=\"s71\" "
             "r:id=\"r1\"/><sheet name=\"s72\" r:id=\"r1\"/><sheet name=\"s73\" "
             "r:id=\"r1\"/><sheet name=\"s74\" r:id=\"r1\"/><sheet name=\"s75\" "
             "r:id=\"r1\"/><sheet name=\"s76\" r:id=\"r1\"/><sheet name=\"s77\" "
             "r:id=\"r1\"/><sheet name=\"s78\" r:id=\"r1\"/><sheet name=\"s79\" "
             "r:id=\"r1\"/><sheet name=\"s80\" r:id=\"r1\"/><sheet name=\"s81\" "
             "r:id=\"r1\"/><sheet name=\"s82\" r:id=\"r1\"/><sheet name=\"s83\" "
             "r:id=\"r1\"/><sheet name=\"s84\" r:id=\"r1\"/><sheet name=\"s85\" "
             "r:id=\"r1\"/><sheet name=\"s86\" r:id=\"r1\"/><sheet name=\"s87\" "
             "r:id=\"r1\"/><sheet name=\"s88\" r:id=\"r1\"/><sheet name=\"s89\" "
             "r:id=\"r1\"/><sheet name=\"s90\" r:id=\"r1\"/><sheet name=\"s91\" "
             "r:id=\"r1\"/><sheet name=\"s92\" r:id=\"r1\"/><sheet name=\"s93\" "
             "r:id=\"r1\"/><sheet name=\"s94\" r:id=\"r1\"/><sheet name=\"s95\" "
             "r:id=\"r1\"/><sheet name=\"s96\" r:id=\"r1\"/><sheet name=\"s97\" "
             "r:id=\"r1\"/><sheet name=\"s98\" r:id=\"r1\"/><sheet name=\"s99\" "
             "r:id=\"r1\"/><sheet name=\"s100\" r:id=\"r1\"/><sheet name=\"s101\" "
             "r:id=\"r1\"/><sheet name=\"s102\" r:id=\"r1\"/><sheet name=\"s103\" "
             "r:id=\"r1\"/><sheet name=\"s104\" r:id=\"r1\"/><sheet name=\"s105\" "
             "r:id=\"r1\"/><sheet name=\"s106\" r:id=\"r1\"/><sheet name=\"s107\" "
             "r:id=\"r1\"/><sheet name=\"s108\" r:id=\"r1\"/><sheet name=\"s109\" "
             "r:id=\"r1\"/><sheet name=\"s110\" r:id=\"r1\"/><sheet name=\"s111\" "
             "r:id=\"r1\"/><sheet name=\"s112\" r:id=\"r1\"/><sheet name=\"s113\" "
             "r:id=\"r1\"/><sheet name=\"s114\" r:id=\"r1\"/><sheet name=\"s115\" "
             "r:id=\"r1\"/><sheet name=\"s116\" r:id=\"r1\"/><sheet name=\"s117\" "
             "r:id=\"r1\"/><sheet name=\"s118\" r:id=\"r1\"/><sheet name=\"s119\" "
             "r:id=\"r1\"/><sheet name=\"s120\" r:id=\"r1\"/><sheet name=\"s121\" "
             "r:id=\"r1\"/><sheet name=\"s122\" r:id=\"r1\"/><sheet name=\"s123\" "
             "r:id=\"r1\"/><sheet name=\"s124\" r:id=\"r1\"/><sheet name=\"s125\" "
             "r:id=\"r1\"/><sheet name=\"s126\" r:id=\"r1\"/><sheet name=\"s127\" "
             "r:id=\"r1\"/><sheet name=\"s128\" r:id=\"r1\"/><sheet name=\"s129\" "
             "r:id=\"r1\"/><sheet name=\"s130\" r:id=\"r1\"/><sheet name=\"s131\" "
             "r:id=\"r1\"/><sheet name=\"s132\" r:id=\"r1\"/><sheet name=\"s133\" "
             "r:id=\"r1\"/><sheet name=\"s134\" r:id=\"r1\"/><sheet name=\"s135\" "
             "r:id=\"r1\"/><sheet name=\"s136\" r:id=\"r1\"/><sheet name=\"s137\" "
             "r:id=\"r1\"/><sheet name=\"s138\" r:id=\"r1\"/><sheet name=\"s139\" "
             "r:id=\"r1\"/><sheet name=\"s140\" r:id=\"r1\"/><sheet name=\"s141\" "
             "r:id=\"r1\"/><sheet name=\"s142\" r:id=\"r1\"/><sheet name=\"s143\" "
             "r:id=\"r1\"/><sheet name=\"s144\" r:id=\"r1\"/><sheet name=\"s145\" "
             "r:id=\"r1\"/><sheet name=\"s146\" r:id=\"r1\"/><sheet name=\"s147\" "
             "r:id=\"r1\"/><sheet name=\"s148\" r:id=\"r1\"/><sheet name=\"s149\" "
             "r:id=\"r1\"/><sheet name=\"s150\" r:id=\"r1\"/><sheet name=\"s151\" "
             "r:id=\"r1\"/><sheet name=\"s152\" r:id=\"r1\"/><sheet name=\"s153\" "
             "r:id=\"r1\"/><sheet name=\"s154\" r:id=\"r1\"/><sheet name=\"s155\" "
             "r:id=\"r1\"/><sheet name=\"s156\" r:id=\"r1\"/><sheet name=\"s157\" "
             "r:id=\"r1\"/><sheet name=\"s158\" r:id=\"r1\"/><sheet name=\"s159\" "
             "r:id=\"r1\"/><sheet name=\"s160\" r:id=\"r1\"/><sheet name=\"s161\" "
             "r:id=\"r1\"/><sheet name=\"s162\" r:id=\"r1\"/><sheet name=\"s163\" "
             "r:id=\"r1\"/><sheet name=\"s164\" r:id=\"r1\"/><sheet name=\"s165\" "
             "r:id=\"r1\"/><sheet name=\"s166\" r:id=\"r1\"/><sheet name=\"s167\" "
             "r:id=\"r1\"/><sheet name=\"s168\" r:id=\"r1\"/><sheet name=\"s169\" "
             "r:id=\"r1\"/><sheet name=\"s170\" r:id=\"r1\"/><sheet name=\"s171\" "
             "r:id=\"r1\"/><sheet name=\"s172\" r:id=\"r1\"/><sheet name=\"s173\" "
             "r:id=\"r1\"/><sheet name=\"s174\" r:id=\"r1\"/><sheet name=\"s175\" "
             "r:id=\"r1\"/><sheet name=\"s176\" r:id=\"r1\"/><sheet name=\"s177\" "
             "r:id=\"r1\"/><sheet name=\"s178\" r:id=\"r1\"/><sheet name=\"s179\" "
             "r:id=\"r1\"/><sheet name=\"s180\" r:id=\"r1\"/><sheet name=\"s181\" "
             "r:id=\"r1\"/><sheet name=\"s182\" r:id=\"r1\"/><sheet name=\"s183\" "
             "r:id=\"r1\"/><sheet name=\"s184\" r:id=\"r1\"/><sheet name=\"s185\" "
             "r:id=\"r1\"/><sheet name=\"s186\" r:id=\"r1\"/><sheet name=\"s187\" "
             "r:id=\"r1\"/><sheet name=\"s188\" r:id=\"r1\"/><sheet name=\"s189\" "
             "r:id=\"r1\"/><sheet name=\"s190\" r:id=\"r1\"/><sheet name=\"s191\" "
             "r:id=\"r1\"/><sheet name=\"s192\" r:id=\"r1\"/><sheet name=\"s193\" "
             "r:id=\"r1\"/><sheet name=\"s194\" r:id=\"r1\"/><sheet name=\"s195\" "
             "r:id=\"r1\"/><sheet name=\"s196\" r:id=\"r1\"/><sheet name=\"s197\" "
             "r:id=\"r1\"/><sheet name=\"s198\" r:id=\"r1\"/><sheet name=\"s199\" "
             "r:id=\"r1\"/><sheet name=\"s200\" r:id=\"r1\"/></sheets></workbook>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/workbook.xml:1:1: not well-formed XML: unclosed token",
         .workbook = "<workbook",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/workbook.xml:1:1: not well-formed XML: no element found",
         .workbook = "",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/workbook.xml:1:13: a document type with entities or rules of its own; "
                   "right would be a document without DOCTYPE",
         .workbook = "<!DOCTYPE x [<!ENTITY a \"b\">]><workbook/>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1\n",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"worksheets/sheet1.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1\n",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"/xl/worksheets/sheet1.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": nothing says where sheet 'Parts' is; right would be a whole workbook",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": nothing says where sheet 'Parts' is; right would be a whole workbook",
         .relations = "<Relationships xmlns=\"p\"><Relationship "
                      "Target=\"worksheets/sheet1.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = "1\n",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"worksheets/sheet1.xml\" TargetMode=\"Internal\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": nothing says where sheet 'Parts' is; right would be a whole workbook",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"worksheets/sheet1.xml\" TargetMode=\"External\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": no entry xl/nowhere.xml in it; right would be exactly one",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"nowhere.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": nothing says where sheet 'Parts' is; right would be a whole workbook",
         .relations = "<Relationships xmlns=\"p\"><Other Id=\"r1\" "
                      "Target=\"worksheets/sheet1.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": no entry xl/../sheet1.xml in it; right would be exactly one",
         .relations = "<Relationships xmlns=\"p\"><Relationship Id=\"r1\" "
                      "Target=\"../sheet1.xml\"/></Relationships>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:1: not well-formed XML: unclosed token",
         .sheet = "<worksheet"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .sheet = "<worksheet/>"},
        {.answer = "&\n",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>&amp;</v></c></row></sheetData></worksheet>"},
        {.answer = ": xl/worksheets/sheet1.xml:1:65: not well-formed XML: undefined entity",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"str\"><v>&nope;</v></c></row></sheetData></worksheet>"},
        {.answer = "#Parts: cell A1: a shared text that the workbook does not have; right would be "
                   "one of its own",
         .strings = "<sst xmlns=\"n\"></sst>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "one\n",
         .strings = "<sst xmlns=\"n\"><si><t>one</t></si></sst>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "one\n",
         .strings = "<sst xmlns=\"n\"><t>stray</t><si><t>one</t></si></sst>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "one\n",
         .strings = "<sst xmlns=\"n\"><si><t>o</t><rPh><t>aloud</t></rPh><t>ne</t></si></sst>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = ": no sheet with anything in it; right would be a row of column names, then a "
                   "row an entry",
         .strings = "<sst xmlns=\"n\"><si/></sst>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "t=\"s\"><v>0</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"0\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"1\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"2\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 mm\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"3\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g/cm\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"4\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"5\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"6\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"7\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "50 %\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"8\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "50 %\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"9\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 g\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"10\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"11\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"12\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"13\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"14\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"15\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 d\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"16\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"17\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"18\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"19\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"20\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 open\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"21\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"22\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"23\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "0.5 ggggggggggggggg\n",
         .styles = NUMBER_STYLES,
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c r=\"A1\" "
                  "s=\"24\"><v>0.5</v></c></row></sheetData></worksheet>"},
        {.answer = "1\n",
         .styles = "<styleSheet><numFmts><numFmt numFmtId=\"5\"/><numFmt "
                   "formatCode=\"0\"/></numFmts><xf numFmtId=\"9\"/></styleSheet>",
         .sheet = "<worksheet xmlns=\"n\"><sheetData><row r=\"1\"><c "
                  "r=\"A1\"><v>1</v></c></row></sheetData></worksheet>"},
    };
    expect(sizeof cases / sizeof *cases, cases);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cells_of_a_sheet_become_fields),
        cmocka_unit_test(a_workbook_says_which_sheets_it_has),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
