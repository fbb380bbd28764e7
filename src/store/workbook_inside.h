/* workbook_inside.h: the parts of a workbook while it is read. Only workbook*.c use it. */
#ifndef PARE_STORE_WORKBOOK_INSIDE_H
#define PARE_STORE_WORKBOOK_INSIDE_H

#include <stdint.h>

#include "base/text.h"
#include "store/workbook.h"
#include "store/xml.h"

/** How a number in a cell is meant, by its format. */
typedef enum pare_number_form {
    PARE_FORM_PLAIN,
    PARE_FORM_SHARE, /* shown in per cent */
    PARE_FORM_DAY,
} pare_number_form;

typedef struct pare_cell_form {
    pare_number_form form;
    const char *unit; /* shown behind it; NULL: none */
} pare_cell_form;

typedef struct pare_workbook {
    const char *path, *bytes; /* the archive: [length] */
    size_t length;
    pare_arena *arena;
    bool from_1904; /* days are counted from there */
    size_t sheets;
    struct {
        const char *name, *id; /* id: of a relation */
        const char *place;     /* in the archive; NULL: the relation is missing */
    } sheet[PARE_WORKBOOK_SHEETS];
    size_t texts, text_room;
    size_t *text_at; /* [texts + 1] in `text`, each with a zero behind it */
    pare_text text;  /* the shared ones */
    size_t forms, form_room;
    pare_cell_form *form; /* [forms] by style */
} pare_workbook;

/** Reads a part of the archive. @param needed  false: one that is not there is no failure */
pare_status pare_workbook_part_read(const pare_workbook *book, const char *part, bool needed,
                                    const pare_xml_reader *reader, pare_error *err);

/** The forms of cells, of the part of styles. */
pare_status pare_workbook_forms(pare_workbook *book, pare_error *err);
/** What a number format's code says: "0.0\" g\"", "yyyy-mm-dd". @param unit  room for one */
pare_number_form pare_workbook_form_of(const char *code, char unit[16]);

/** A sheet as text, to the end of `csv`.
 * @param[out] any  it has something in it */
pare_status pare_workbook_sheet(const pare_workbook *book, size_t sheet, bool comma, pare_text *csv,
                                bool *any, pare_error *err);

#endif
