-- A bench of version 1 as pg_dump writes it (tests/data/field-5.yaml, a weigh-in, a limit), without caches.
CREATE SCHEMA pare;
CREATE DOMAIN pare.word AS text COLLATE pg_catalog."C";
CREATE FUNCTION pare.allow(who name, what text) RETURNS void
    LANGUAGE plpgsql
    AS $$BEGIN IF who = (SELECT tableowner FROM pg_tables WHERE schemaname = 'pare' AND tablename = 'bench') THEN RAISE EXCEPTION '%', who || ' owns this bench and may do all'; END IF;IF what NOT IN ('none', 'read', 'weigh', 'edit') THEN RAISE EXCEPTION 'allow ''%''; right would be none, read, weigh or edit', what; END IF;EXECUTE format('REVOKE ALL ON ALL TABLES IN SCHEMA pare FROM %I', who);EXECUTE format('REVOKE ALL ON SCHEMA pare FROM %I', who);IF what = 'none' THEN RETURN; END IF;EXECUTE format('GRANT USAGE ON SCHEMA pare TO %I', who);EXECUTE format('GRANT SELECT ON ALL TABLES IN SCHEMA pare TO %I', who);IF what = 'read' THEN RETURN; END IF;EXECUTE format('GRANT UPDATE (stamp) ON pare.bench TO %I', who);EXECUTE format('GRANT INSERT, UPDATE, DELETE ON pare.scale, pare.weigh_in, pare.flight, pare.prop_table, pare.mesh, pare.change, pare.change_new, pare.change_old, pare.change_open, pare.touched TO %I', who);IF what = 'weigh' THEN RETURN; END IF;EXECUTE format('GRANT INSERT, UPDATE, DELETE ON pare.setting, pare.part, pare.craft, pare.craft_part, pare.file, pare.part_file, pare.stand_table TO %I', who);END$$;
CREATE FUNCTION pare.bytes_of(bytea) RETURNS bytea
    LANGUAGE sql IMMUTABLE STRICT
    AS $_$SELECT $1$_$;
CREATE FUNCTION pare.bytes_of(text) RETURNS bytea
    LANGUAGE sql IMMUTABLE STRICT
    AS $_$SELECT convert_to($1, 'UTF8')$_$;
CREATE FUNCTION pare.keep_craft() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'craft', old.row, old.name, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'craft' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_file() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'file', old.row, old.name, pare.bytes_of(old.bytes) FROM pare.change_open o WHERE o.list = 'file' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_flight() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'flight', old.row, NULL, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'flight' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_part() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'part', old.row, old.id, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'part' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_scale() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'scale', old.row, old.id, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'scale' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_setting() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'setting', old.row, old.name, pare.bytes_of(old.value) FROM pare.change_open o WHERE o.list = 'setting' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_stand_table() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'stand_table', old.row, NULL, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'stand_table' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.keep_weigh_in() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN INSERT INTO pare.change_old(change, list, row, name, was) SELECT o.change, 'weigh_in', old.row, NULL, pare.bytes_of(old.doc) FROM pare.change_open o WHERE o.list = 'weigh_in' AND old.row < o.first ON CONFLICT DO NOTHING; RETURN NULL; END$$;
CREATE FUNCTION pare.number_craft() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.craft); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_file() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.file); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_flight() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.flight); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_part() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.part); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_scale() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.scale); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_setting() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.setting); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_stand_table() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.stand_table); END IF; RETURN new; END$$;
CREATE FUNCTION pare.number_weigh_in() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF new.row IS NULL THEN new.row := (SELECT 1 + coalesce(max(row), 0) FROM pare.weigh_in); END IF; RETURN new; END$$;
CREATE FUNCTION pare.sign() RETURNS trigger
    LANGUAGE plpgsql
    AS $$BEGIN IF tg_op = 'INSERT' THEN new.who := session_user; new.turned_by := NULL; new.time := to_char(clock_timestamp() AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"'); ELSE new.who := old.who; new.time := old.time; new.turned_by := session_user; END IF; RETURN new; END$$;
CREATE TABLE pare.bench (
    only_one boolean DEFAULT true NOT NULL,
    version bigint NOT NULL,
    stamp bigint NOT NULL,
    CONSTRAINT bench_only_one_check CHECK (only_one)
);
CREATE TABLE pare.change (
    number bigint NOT NULL,
    "time" pare.word NOT NULL,
    what text NOT NULL,
    why text,
    undone bigint DEFAULT 0 NOT NULL,
    who text,
    turned_by text
);
CREATE TABLE pare.change_new (
    change bigint NOT NULL,
    list pare.word NOT NULL,
    first bigint NOT NULL,
    last bigint NOT NULL
);
CREATE TABLE pare.change_old (
    change bigint NOT NULL,
    list pare.word NOT NULL,
    "row" bigint NOT NULL,
    name text,
    was bytea
);
CREATE TABLE pare.change_open (
    list pare.word NOT NULL,
    change bigint NOT NULL,
    first bigint NOT NULL
);
CREATE TABLE pare.craft (
    "row" bigint NOT NULL,
    name pare.word NOT NULL,
    doc text NOT NULL
);
CREATE TABLE pare.craft_part (
    craft pare.word NOT NULL,
    part pare.word NOT NULL
);
CREATE TABLE pare.file (
    "row" bigint NOT NULL,
    name pare.word NOT NULL,
    bytes bytea NOT NULL
);
ALTER TABLE ONLY pare.file ALTER COLUMN bytes SET STORAGE EXTERNAL;
CREATE TABLE pare.flight (
    "row" bigint NOT NULL,
    craft pare.word NOT NULL,
    pack pare.word,
    date pare.word NOT NULL,
    doc text NOT NULL
);
CREATE TABLE pare.mesh (
    file pare.word NOT NULL,
    unit_m double precision NOT NULL,
    layout bigint NOT NULL,
    facts bytea NOT NULL
);
CREATE TABLE pare.part (
    "row" bigint NOT NULL,
    id pare.word NOT NULL,
    kind pare.word NOT NULL,
    maker text,
    mass_kg double precision NOT NULL,
    facts bytea,
    doc text NOT NULL,
    CONSTRAINT part_mass_kg_check CHECK ((mass_kg > (0)::double precision))
);
CREATE TABLE pare.part_file (
    part pare.word NOT NULL,
    file pare.word NOT NULL
);
CREATE TABLE pare.prop_table (
    key bigint NOT NULL,
    bytes bytea NOT NULL
);
ALTER TABLE ONLY pare.prop_table ALTER COLUMN bytes SET STORAGE EXTERNAL;
CREATE TABLE pare.scale (
    "row" bigint NOT NULL,
    id pare.word NOT NULL,
    doc text NOT NULL
);
CREATE TABLE pare.setting (
    "row" bigint NOT NULL,
    name pare.word NOT NULL,
    value text NOT NULL
);
CREATE TABLE pare.stand_table (
    "row" bigint NOT NULL,
    motor pare.word NOT NULL,
    propeller pare.word NOT NULL,
    doc text NOT NULL
);
CREATE TABLE pare.touched (
    list pare.word NOT NULL,
    "row" bigint NOT NULL,
    name text,
    now bytea
);
CREATE TABLE pare.weigh_in (
    "row" bigint NOT NULL,
    craft pare.word NOT NULL,
    scale pare.word,
    date pare.word NOT NULL,
    doc text NOT NULL
);
INSERT INTO pare.bench VALUES (true, 1, 4);
INSERT INTO pare.change VALUES (1, '2026-11-30T01:20:15Z', 'import tests/data/field-5.yaml', NULL, 0, 'postgres', NULL);
INSERT INTO pare.change VALUES (2, '2026-11-30T01:21:16Z', 'weigh field-5 whole=512g', NULL, 0, 'postgres', NULL);
INSERT INTO pare.change VALUES (3, '2026-11-30T01:21:16Z', 'craft limit field-5 all_up=540g', 'new class', 0, 'postgres', NULL);
INSERT INTO pare.change_new VALUES (1, 'setting', 1, 1);
INSERT INTO pare.change_new VALUES (1, 'part', 1, 10);
INSERT INTO pare.change_new VALUES (1, 'craft', 1, 1);
INSERT INTO pare.change_new VALUES (2, 'weigh_in', 1, 1);
INSERT INTO pare.change_old VALUES (3, 'craft', 1, 'field-5', '\x6e616d653a206669656c642d350a62726965663a0a20206169723a207b616c7469747564653a2030206d7d0a2020666c6f776e3a205b7b73686172653a20333020252c2061733a20686f7665727d2c207b73686172653a20353020252c2073706565643a203132206d2f737d2c207b73686172653a20323020252c207468727573743a20327d5d0a20206c696d6974733a207b616c6c5f75703a20223c3d203536302067222c20666c6f776e3a20223e3d2033206d696e227d0a20206b6565703a205b736565735d0a6974656d733a0a20206672616d653a207b706172743a2066722d317d0a20206d6f746f723a207b706172743a206d6f2d312c20636f756e743a20342c2061743a2061726d737d0a202070726f70656c6c65723a207b706172743a2070722d312c20636f756e743a20342c2061743a2061726d737d0a20206573633a207b706172743a2065732d312c2061743a205b30206d6d2c2030206d6d2c2034206d6d5d7d0a2020627261696e3a207b706172743a2066632d312c2061743a205b30206d6d2c2030206d6d2c203131206d6d5d7d0a20207061636b3a207b706172743a2070612d312c2061743a205b2d35206d6d2c2030206d6d2c203435206d6d5d7d0a202063616d6572613a207b706172743a2063612d312c2061743a205b3530206d6d2c2030206d6d2c203135206d6d5d7d0a2020766964656f3a207b706172743a2076742d312c2061743a205b2d3330206d6d2c2030206d6d2c203132206d6d5d7d0a2020616e74656e6e613a207b706172743a20616e2d312c2061743a205b2d3630206d6d2c2030206d6d2c203230206d6d5d2c2066656564733a205b766964656f5d7d0a2020736964653a207b706172743a2073692d312c2061743a205b2d3230206d6d2c203135206d6d2c203130206d6d5d7d0a6a6f696e74733a0a20206d6f746f725f626173653a0a202020207374616e646172643a2049534f343736320a202020207468726561643a204d330a202020206c656e6774683a2038206d6d0a202020206d6174657269616c3a20737465656c0a20202020636f756e743a2031360a20202020686f6c64733a206d6f746f720a72756e733a0a20206c6561643a207b67617567653a2031342c20776179733a205b3930206d6d2c203930206d6d5d2c20636172726965733a207061636b2c2061743a205b2d3435206d6d2c2030206d6d2c2038206d6d5d7d0a202070686173653a207b696e636c756465645f696e3a206d6f746f722c20636172726965733a206d6f746f727d');
INSERT INTO pare.craft VALUES (1, 'field-5', 'name: field-5
brief:
  air: {altitude: 0 m}
  flown: [{share: 30 %, as: hover}, {share: 50 %, speed: 12 m/s}, {share: 20 %, thrust: 2}]
  limits: {all_up: "<= 540g", flown: ">= 3 min"}
  keep: [sees]
items:
  frame: {part: fr-1}
  motor: {part: mo-1, count: 4, at: arms}
  propeller: {part: pr-1, count: 4, at: arms}
  esc: {part: es-1, at: [0 mm, 0 mm, 4 mm]}
  brain: {part: fc-1, at: [0 mm, 0 mm, 11 mm]}
  pack: {part: pa-1, at: [-5 mm, 0 mm, 45 mm]}
  camera: {part: ca-1, at: [50 mm, 0 mm, 15 mm]}
  video: {part: vt-1, at: [-30 mm, 0 mm, 12 mm]}
  antenna: {part: an-1, at: [-60 mm, 0 mm, 20 mm], feeds: [video]}
  side: {part: si-1, at: [-20 mm, 15 mm, 10 mm]}
joints:
  motor_base:
    standard: ISO4762
    thread: M3
    length: 8 mm
    material: steel
    count: 16
    holds: motor
runs:
  lead: {gauge: 14, ways: [90 mm, 90 mm], carries: pack, at: [-45 mm, 0 mm, 8 mm]}
  phase: {included_in: motor, carries: motor}');
INSERT INTO pare.craft_part VALUES ('field-5', 'fr-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'mo-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'pr-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'es-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'fc-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'pa-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'ca-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'vt-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'an-1');
INSERT INTO pare.craft_part VALUES ('field-5', 'si-1');
INSERT INTO pare.part VALUES (1, 'fr-1', 'frame', 'Oxbow Cutters', 0.09, '\x01000020fca9f1d24d62503f210000000000003e40', 'id: fr-1
kind: frame
maker: Oxbow Cutters
mass: {value: 90 g, u: 1 g, known: weighed}
price: {each: 30.00, sold_in: 1}
fits: {bolt_circle: 16 mm, propeller: 4 in .. 5.2 in, stack: 30.5 mm, camera: 19 mm}
body:
- arms: [[80 mm, 80 mm], [80 mm, -80 mm], [-80 mm, -80 mm], [-80 mm, 80 mm]]
  root: 25 mm
  section: [12 mm, 5 mm]
- {plate: base, size: [110 mm, 40 mm, 2 mm], at: [0 mm, 0 mm, -6 mm]}
- {plate: top, size: [130 mm, 38 mm, 2 mm], at: [0 mm, 0 mm, 25 mm]}');
INSERT INTO pare.part VALUES (2, 'mo-1', 'motor', 'Oxbow Cutters', 0.032, '\x01000000ba490c022b87963f0179e9263108ac7c3f020000000000789e4003a4703d0ad7a3b03f04333333333333f33f050000000000002440060000000000002640070000000000003a40202d431cebe2362a3f210000000000003240', 'id: mo-1
kind: motor
maker: Oxbow Cutters
mass: {value: 32 g, u: 0.2 g, known: weighed}
price: {each: 18.00, sold_in: 1}
spec:
  stator: 22 mm x 7 mm
  kv: 1950
  resistance: 65 mohm
  no_load: 1.2 A
  no_load_at: 10 V
  volts: 11 V .. 26 V
fits: {bolt_circle: 16 mm, thread: M3, shaft: M5}
includes: [{run: phase, gauge: 20, length: 120 mm, count: 3}]');
INSERT INTO pare.part VALUES (3, 'pr-1', 'propeller', 'Alder Blades', 0.0043, '\x0100000b300dc347c494c03f0cd9b11188d7f5bb3f0d0000000000000840202d431cebe2361a3f219a9999999999e93f', 'id: pr-1
kind: propeller
maker: Alder Blades
mass: {value: 4.3 g, u: 0.1 g, known: weighed}
price: {each: 0.80, sold_in: 4}
spec: {diameter: 5.1 in, pitch: 4.3 in, blades: 3}
fits: {shaft: M5}');
INSERT INTO pare.part VALUES (4, 'es-1', 'esc_four', 'Alder Blades', 0.013, '\x010003060000000000002240070000000000003b40080000000000804640090000000000804b4020613255302aa9333f', 'id: es-1
kind: esc_four
mass: {value: 13 g, u: 0.3 g, known: stated}
maker: Alder Blades
spec: {continuous: 45 A, burst: 55 A, volts: 9 V .. 27 V}
fits: {stack: 30.5 mm}');
INSERT INTO pare.part VALUES (5, 'fc-1', 'flight_controller', NULL, 0.008, '\x01000013333333333333f33f16295c8fc2f528ec3f202d431cebe2362a3f', 'id: fc-1
kind: flight_controller
mass: {value: 8 g, u: 0.2 g, known: weighed}
spec: {power: 1.2 W, efficiency: 88 %}
fits: {stack: 30.5 mm}');
INSERT INTO pare.part VALUES (6, 'pa-1', 'pack', NULL, 0.21, '\x01000010000000000000184011000000000048b24020fca9f1d24d62603f210000000000004240', 'id: pa-1
kind: pack
mass: {value: 210 g, u: 2 g, known: weighed}
price: {each: 36.00, sold_in: 1}
spec: {chemistry: lipo, cells: 6, capacity: 1300 mAh}
fits: {connector: 60 A class}
body: {shape: box, size: [75 mm, 36 mm, 40 mm]}');
INSERT INTO pare.part VALUES (7, 'ca-1', 'camera', NULL, 0.008, '\x01000013666666666666e63f202d431cebe2362a3f', 'id: ca-1
kind: camera
mass: {value: 8 g, u: 0.2 g, known: weighed}
spec: {power: 0.7 W}
fits: {camera: 19 mm}');
INSERT INTO pare.part VALUES (8, 'vt-1', 'video_transmitter', NULL, 0.006, '\x010000130000000000001040202d431cebe2362a3f', 'id: vt-1
kind: video_transmitter
mass: {value: 6 g, u: 0.2 g, known: weighed}
spec: {power: 4 W}
fits: {antenna: snap}');
INSERT INTO pare.part VALUES (9, 'an-1', 'antenna', NULL, 0.002, '\x0100001ab81e85eb51b8ae3f202d431cebe2361a3f', 'id: an-1
kind: antenna
mass: {value: 2 g, u: 0.1 g, known: weighed}
spec: {length: 60 mm}
fits: {antenna: snap}');
INSERT INTO pare.part VALUES (10, 'si-1', 'other', NULL, 0.006, '\x010000202d431cebe2361a3f', '{id: si-1, kind: other, mass: {value: 6 g, u: 0.1 g, known: weighed}}');
INSERT INTO pare.setting VALUES (1, 'money', 'EUR');
INSERT INTO pare.weigh_in VALUES (1, 'field-5', NULL, '2026-11-30', '{craft: field-5, date: 2026-11-30, of: all, reads: 512 g, promise: 509.80 g .. 522.94 g}');
ALTER TABLE ONLY pare.bench
    ADD CONSTRAINT bench_pkey PRIMARY KEY (only_one);
ALTER TABLE ONLY pare.change_new
    ADD CONSTRAINT change_new_pkey PRIMARY KEY (change, list);
ALTER TABLE ONLY pare.change_old
    ADD CONSTRAINT change_old_pkey PRIMARY KEY (change, list, "row");
ALTER TABLE ONLY pare.change_open
    ADD CONSTRAINT change_open_pkey PRIMARY KEY (list);
ALTER TABLE ONLY pare.change
    ADD CONSTRAINT change_pkey PRIMARY KEY (number);
ALTER TABLE ONLY pare.craft
    ADD CONSTRAINT craft_name_key UNIQUE (name);
ALTER TABLE ONLY pare.craft_part
    ADD CONSTRAINT craft_part_pkey PRIMARY KEY (craft, part);
ALTER TABLE ONLY pare.craft
    ADD CONSTRAINT craft_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.file
    ADD CONSTRAINT file_name_key UNIQUE (name);
ALTER TABLE ONLY pare.file
    ADD CONSTRAINT file_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.flight
    ADD CONSTRAINT flight_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.mesh
    ADD CONSTRAINT mesh_pkey PRIMARY KEY (file, unit_m);
ALTER TABLE ONLY pare.part_file
    ADD CONSTRAINT part_file_pkey PRIMARY KEY (part, file);
ALTER TABLE ONLY pare.part
    ADD CONSTRAINT part_id_key UNIQUE (id);
ALTER TABLE ONLY pare.part
    ADD CONSTRAINT part_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.prop_table
    ADD CONSTRAINT prop_table_pkey PRIMARY KEY (key);
ALTER TABLE ONLY pare.scale
    ADD CONSTRAINT scale_id_key UNIQUE (id);
ALTER TABLE ONLY pare.scale
    ADD CONSTRAINT scale_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.setting
    ADD CONSTRAINT setting_name_key UNIQUE (name);
ALTER TABLE ONLY pare.setting
    ADD CONSTRAINT setting_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.stand_table
    ADD CONSTRAINT stand_table_pkey PRIMARY KEY ("row");
ALTER TABLE ONLY pare.touched
    ADD CONSTRAINT touched_pkey PRIMARY KEY (list, "row");
ALTER TABLE ONLY pare.weigh_in
    ADD CONSTRAINT weigh_in_pkey PRIMARY KEY ("row");
CREATE INDEX craft_part_part ON pare.craft_part USING btree (part);
CREATE INDEX flight_craft ON pare.flight USING btree (craft);
CREATE INDEX flight_doc ON pare.flight USING hash (doc);
CREATE INDEX flight_pack ON pare.flight USING btree (pack);
CREATE INDEX part_file_file ON pare.part_file USING btree (file);
CREATE INDEX stand_table_doc ON pare.stand_table USING hash (doc);
CREATE INDEX stand_table_motor ON pare.stand_table USING btree (motor);
CREATE INDEX stand_table_propeller ON pare.stand_table USING btree (propeller);
CREATE INDEX weigh_in_craft ON pare.weigh_in USING btree (craft);
CREATE INDEX weigh_in_doc ON pare.weigh_in USING hash (doc);
CREATE INDEX weigh_in_scale ON pare.weigh_in USING btree (scale);
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.craft FOR EACH ROW EXECUTE FUNCTION pare.keep_craft();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.file FOR EACH ROW EXECUTE FUNCTION pare.keep_file();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.flight FOR EACH ROW EXECUTE FUNCTION pare.keep_flight();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.part FOR EACH ROW EXECUTE FUNCTION pare.keep_part();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.scale FOR EACH ROW EXECUTE FUNCTION pare.keep_scale();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.setting FOR EACH ROW EXECUTE FUNCTION pare.keep_setting();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.stand_table FOR EACH ROW EXECUTE FUNCTION pare.keep_stand_table();
CREATE TRIGGER kept_deleted AFTER DELETE ON pare.weigh_in FOR EACH ROW EXECUTE FUNCTION pare.keep_weigh_in();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.craft FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_craft();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.file FOR EACH ROW WHEN ((old.bytes IS DISTINCT FROM new.bytes)) EXECUTE FUNCTION pare.keep_file();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.flight FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_flight();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.part FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_part();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.scale FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_scale();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.setting FOR EACH ROW WHEN ((old.value IS DISTINCT FROM new.value)) EXECUTE FUNCTION pare.keep_setting();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.stand_table FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_stand_table();
CREATE TRIGGER kept_updated AFTER UPDATE ON pare.weigh_in FOR EACH ROW WHEN ((old.doc IS DISTINCT FROM new.doc)) EXECUTE FUNCTION pare.keep_weigh_in();
CREATE TRIGGER numbered BEFORE INSERT ON pare.craft FOR EACH ROW EXECUTE FUNCTION pare.number_craft();
CREATE TRIGGER numbered BEFORE INSERT ON pare.file FOR EACH ROW EXECUTE FUNCTION pare.number_file();
CREATE TRIGGER numbered BEFORE INSERT ON pare.flight FOR EACH ROW EXECUTE FUNCTION pare.number_flight();
CREATE TRIGGER numbered BEFORE INSERT ON pare.part FOR EACH ROW EXECUTE FUNCTION pare.number_part();
CREATE TRIGGER numbered BEFORE INSERT ON pare.scale FOR EACH ROW EXECUTE FUNCTION pare.number_scale();
CREATE TRIGGER numbered BEFORE INSERT ON pare.setting FOR EACH ROW EXECUTE FUNCTION pare.number_setting();
CREATE TRIGGER numbered BEFORE INSERT ON pare.stand_table FOR EACH ROW EXECUTE FUNCTION pare.number_stand_table();
CREATE TRIGGER numbered BEFORE INSERT ON pare.weigh_in FOR EACH ROW EXECUTE FUNCTION pare.number_weigh_in();
CREATE TRIGGER signed BEFORE INSERT OR UPDATE ON pare.change FOR EACH ROW EXECUTE FUNCTION pare.sign();
ALTER TABLE ONLY pare.change_new
    ADD CONSTRAINT change_new_change_fkey FOREIGN KEY (change) REFERENCES pare.change(number) ON DELETE CASCADE DEFERRABLE;
ALTER TABLE ONLY pare.change_old
    ADD CONSTRAINT change_old_change_fkey FOREIGN KEY (change) REFERENCES pare.change(number) ON DELETE CASCADE DEFERRABLE;
ALTER TABLE ONLY pare.craft_part
    ADD CONSTRAINT craft_part_craft_fkey FOREIGN KEY (craft) REFERENCES pare.craft(name) ON DELETE CASCADE DEFERRABLE;
ALTER TABLE ONLY pare.craft_part
    ADD CONSTRAINT craft_part_part_fkey FOREIGN KEY (part) REFERENCES pare.part(id) DEFERRABLE;
ALTER TABLE ONLY pare.flight
    ADD CONSTRAINT flight_craft_fkey FOREIGN KEY (craft) REFERENCES pare.craft(name) DEFERRABLE;
ALTER TABLE ONLY pare.flight
    ADD CONSTRAINT flight_pack_fkey FOREIGN KEY (pack) REFERENCES pare.part(id) DEFERRABLE;
ALTER TABLE ONLY pare.mesh
    ADD CONSTRAINT mesh_file_fkey FOREIGN KEY (file) REFERENCES pare.file(name) ON DELETE CASCADE DEFERRABLE;
ALTER TABLE ONLY pare.part_file
    ADD CONSTRAINT part_file_file_fkey FOREIGN KEY (file) REFERENCES pare.file(name) DEFERRABLE;
ALTER TABLE ONLY pare.part_file
    ADD CONSTRAINT part_file_part_fkey FOREIGN KEY (part) REFERENCES pare.part(id) ON DELETE CASCADE DEFERRABLE;
ALTER TABLE ONLY pare.stand_table
    ADD CONSTRAINT stand_table_motor_fkey FOREIGN KEY (motor) REFERENCES pare.part(id) DEFERRABLE;
ALTER TABLE ONLY pare.stand_table
    ADD CONSTRAINT stand_table_propeller_fkey FOREIGN KEY (propeller) REFERENCES pare.part(id) DEFERRABLE;
ALTER TABLE ONLY pare.weigh_in
    ADD CONSTRAINT weigh_in_craft_fkey FOREIGN KEY (craft) REFERENCES pare.craft(name) DEFERRABLE;
ALTER TABLE ONLY pare.weigh_in
    ADD CONSTRAINT weigh_in_scale_fkey FOREIGN KEY (scale) REFERENCES pare.scale(id) DEFERRABLE;
