CREATE TABLE book_schema (
    number bigint NOT NULL
);
CREATE TABLE client (
    id text NOT NULL COLLATE pg_catalog."C",
    name text NOT NULL COLLATE pg_catalog."C",
    phone text NOT NULL COLLATE pg_catalog."C",
    sorted text NOT NULL COLLATE pg_catalog."C",
    erased bigint NOT NULL
);
CREATE TABLE client_word (
    word text NOT NULL COLLATE pg_catalog."C",
    client text NOT NULL COLLATE pg_catalog."C"
);
CREATE TABLE fact (
    place bigint NOT NULL,
    id text NOT NULL COLLATE pg_catalog."C",
    about text NOT NULL COLLATE pg_catalog."C",
    subject text NOT NULL COLLATE pg_catalog."C",
    kind text NOT NULL COLLATE pg_catalog."C",
    happened text NOT NULL COLLATE pg_catalog."C",
    told_by text NOT NULL COLLATE pg_catalog."C",
    amends text NOT NULL COLLATE pg_catalog."C",
    body text NOT NULL COLLATE pg_catalog."C",
    sum text NOT NULL COLLATE pg_catalog."C"
);
ALTER TABLE fact ALTER COLUMN place ADD GENERATED ALWAYS AS IDENTITY (
    SEQUENCE NAME fact_place_seq
    START WITH 1
    INCREMENT BY 1
    NO MINVALUE
    NO MAXVALUE
    CACHE 1
);
CREATE TABLE gone (
    id text NOT NULL COLLATE pg_catalog."C"
);
CREATE TABLE movement (
    fact text NOT NULL COLLATE pg_catalog."C",
    product text NOT NULL COLLATE pg_catalog."C",
    place bigint NOT NULL,
    grams double precision NOT NULL,
    counted bigint NOT NULL,
    happened text NOT NULL COLLATE pg_catalog."C",
    why text NOT NULL COLLATE pg_catalog."C",
    visit text NOT NULL COLLATE pg_catalog."C"
);
CREATE TABLE product (
    id text NOT NULL COLLATE pg_catalog."C"
);
CREATE TABLE strip (
    visit text NOT NULL COLLATE pg_catalog."C",
    body text NOT NULL COLLATE pg_catalog."C"
);
CREATE TABLE visit (
    id text NOT NULL COLLATE pg_catalog."C",
    client text NOT NULL COLLATE pg_catalog."C",
    starts text NOT NULL COLLATE pg_catalog."C",
    stage bigint NOT NULL
);
INSERT INTO book_schema VALUES (1);
INSERT INTO book_schema VALUES (2);
INSERT INTO book_schema VALUES (3);
INSERT INTO client VALUES ('c1', 'name: Zoë, "twists"; =1+1', 'phone: Zoë, "twists"; =1+1', 'name zoe twists 1 1 ', 0);
INSERT INTO client VALUES ('c0', '', '', '', 1);
INSERT INTO client VALUES ('c9', '', '', '', 1);
INSERT INTO client_word VALUES ('1', 'c1');
INSERT INTO client_word VALUES ('ail', 'c1');
INSERT INTO client_word VALUES ('ame', 'c1');
INSERT INTO client_word VALUES ('e', 'c1');
INSERT INTO client_word VALUES ('email', 'c1');
INSERT INTO client_word VALUES ('hone', 'c1');
INSERT INTO client_word VALUES ('il', 'c1');
INSERT INTO client_word VALUES ('ists', 'c1');
INSERT INTO client_word VALUES ('l', 'c1');
INSERT INTO client_word VALUES ('mail', 'c1');
INSERT INTO client_word VALUES ('me', 'c1');
INSERT INTO client_word VALUES ('name', 'c1');
INSERT INTO client_word VALUES ('ne', 'c1');
INSERT INTO client_word VALUES ('oe', 'c1');
INSERT INTO client_word VALUES ('one', 'c1');
INSERT INTO client_word VALUES ('phone', 'c1');
INSERT INTO client_word VALUES ('s', 'c1');
INSERT INTO client_word VALUES ('sts', 'c1');
INSERT INTO client_word VALUES ('ts', 'c1');
INSERT INTO client_word VALUES ('twists', 'c1');
INSERT INTO client_word VALUES ('wists', 'c1');
INSERT INTO client_word VALUES ('zoe', 'c1');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (1, 'f-person', 'client', 'c1', 'person', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"name":"name: Zoë, \"twists\"; =1+1","phone":"phone: Zoë, \"twists\"; =1+1","email":"email: Zoë, \"twists\"; =1+1","address":"address: Zoë, \"twists\"; =1+1","language":"language: Zoë, \"twists\"; =1+1","age":"under 16","notes":"notes: Zoë, \"twists\"; =1+1","growth_cm_per_month":1}', 'd4e33bb2c175a8b8');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (2, 'f-product', 'product', 'mask', 'product', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"product":{"id":"id: Zoë, \"twists\"; =1+1","kind":"lightener","words":"words: Zoë, \"twists\"; =1+1","name":"name: Zoë, \"twists\"; =1+1","peroxide_percent":1,"for_scalp":true,"developer_parts":1,"class":"direct","level":1,"tone":"neutral","ingredients":["ingredients: Zoë, \"twists\"; =1+1"],"swatch_lab":[1,1,1],"stock_g":1,"price_per_g":1,"label_max_min":1,"label_min":1,"mix_life_min":1,"test_each_use":true,"label_allows_mixing":true,"protein":true},"size_g":1,"price":1,"lead_days":1,"order_cost":1}', '41cbb1512bb9e73b');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (3, 'f-booked', 'visit', 'v1', 'booked', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"client":"c1","starts_at":"2025-05-14T10:00:00+02:00","minutes":1,"chair":"chair: Zoë, \"twists\"; =1+1","wish":"wish: Zoë, \"twists\"; =1+1","from_card":"yes"}', 'f0769fa9b2421ce5');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (4, 'f-enquiry', 'visit', 'v1', 'enquiry', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"client":"c1","words":"words: Zoë, \"twists\"; =1+1"}', '7f5b1350d7d4aca4');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (5, 'f-skin_test', 'client', 'c1', 'skin_test', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"product":"mask","shade":"mask","lot":"lot: Zoë, \"twists\"; =1+1","applied_at":"2025-05-14T10:00:00+02:00","read_at":"2025-05-14T10:00:00+02:00","result":"clear"}', '55abfc229919f923');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (6, 'f-hair_test', 'client', 'c1', 'hair_test', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"test":"incompatibility","zone":"zone: Zoë, \"twists\"; =1+1","result":"passed","seen":"seen: Zoë, \"twists\"; =1+1"}', 'b24d1dbe22b635a6');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (7, 'f-allergy', 'client', 'c1', 'allergy', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"to":"hair dye","substance":"substance: Zoë, \"twists\"; =1+1","happened":"happened: Zoë, \"twists\"; =1+1","told_by":"client"}', '93d0b0071761f83a');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (8, 'f-consent', 'client', 'c1', 'consent', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"purpose":"service","answer":"given","wording":"wording: Zoë, \"twists\"; =1+1"}', '6e4681cc8334f535');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (9, 'f-hair_past', 'client', 'c1', 'hair_past', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"service":"service: Zoë, \"twists\"; =1+1","when":"2025-05-14","zone":"zone: Zoë, \"twists\"; =1+1","notes":"notes: Zoë, \"twists\"; =1+1"}', 'ca0553c4ef1762ec');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (10, 'f-erased', 'client', 'c0', 'erased', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"reason":"reason: Zoë, \"twists\"; =1+1"}', 'cefdd444c232c115');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (11, 'f-cancelled', 'visit', 'v1', 'cancelled', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"why":"why: Zoë, \"twists\"; =1+1"}', 'c1684b56e084c8be');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (12, 'f-quote', 'visit', 'v1', 'quote', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"low_money":1,"high_money":1,"low_h":1,"high_h":1,"terms":"terms: Zoë, \"twists\"; =1+1"}', 'a34ab2a2289d61fc');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (13, 'f-payment', 'visit', 'v1', 'payment', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"money":1,"for":"deposit","way":"cash"}', '3034fcb48707faa0');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (14, 'f-price', 'visit', 'v1', 'price', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"money":1,"how":"how: Zoë, \"twists\"; =1+1"}', '452776f2c5f329f2');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (15, 'f-photo', 'visit', 'v1', 'photo', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"sha256":"159c2bcab485d298ba138cc2c9ed83decf52125d4773f985b8aae42cb9c6522e","shows":"before","zone":"zone: Zoë, \"twists\"; =1+1","light":"light: Zoë, \"twists\"; =1+1"}', '3232a593494907a1');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (16, 'f-reading', 'visit', 'v1', 'reading', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","when":"before","minute":1,"level":1,"lab":[1,1,1],"tone":"tone: Zoë, \"twists\"; =1+1","seen":"dry","light":"light: Zoë, \"twists\"; =1+1","reader":"reader: Zoë, \"twists\"; =1+1"}', 'cd8d14bedb2193b7');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (17, 'f-strand_test', 'visit', 'v1', 'strand_test', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","bowl":"bowl: Zoë, \"twists\"; =1+1","minutes":1,"level":1,"stretch":"springs_back","result":"passed"}', '30924e85327061e6');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (18, 'f-plan', 'visit', 'v1', 'plan', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"program":"program: Zoë, \"twists\"; =1+1","constants":"constants: Zoë, \"twists\"; =1+1","seed":1,"course":1,"reckoned_g":1,"zones":[{"zone":"zone: Zoë, \"twists\"; =1+1","level":1,"lab":[1,1,1],"fade":[{"wash":1,"lab":[1,1,1]}]}],"case":"case: Zoë, \"twists\"; =1+1","answer":"answer: Zoë, \"twists\"; =1+1"}', '80ec59a8a104b8b4');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (19, 'f-pour', 'visit', 'v1', 'pour', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"bowl":"bowl: Zoë, \"twists\"; =1+1","product":"mask","grams":1,"lot":"lot: Zoë, \"twists\"; =1+1"}', '9fcd38ada24b774a');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (20, 'f-leftover', 'visit', 'v1', 'leftover', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"bowl":"bowl: Zoë, \"twists\"; =1+1","product":"mask","grams":1}', 'b1b0bc9b63ebd52a');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (21, 'f-apply', 'visit', 'v1', 'apply', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"bowl":"bowl: Zoë, \"twists\"; =1+1","zone":"zone: Zoë, \"twists\"; =1+1","is":"on"}', '3e74d03a271e732a');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (22, 'f-rinse', 'visit', 'v1', 'rinse', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","why":"why: Zoë, \"twists\"; =1+1"}', '2888d8296b322dc1');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (23, 'f-stretch', 'visit', 'v1', 'stretch', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","worst":"springs_back","strands":1,"places":1}', 'e8b63be778b968b4');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (24, 'f-treatment', 'visit', 'v1', 'treatment', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"product":"mask","done":"done: Zoë, \"twists\"; =1+1","zone":"zone: Zoë, \"twists\"; =1+1","minutes":1}', 'db56e25f8c1ba59b');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (25, 'f-change', 'visit', 'v1', 'change', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"change":"change: Zoë, \"twists\"; =1+1","why":"why: Zoë, \"twists\"; =1+1","agreed_by":"agreed_by: Zoë, \"twists\"; =1+1"}', '1a0bbb32039b44c2');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (26, 'f-pain', 'visit', 'v1', 'pain', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"place":"place: Zoë, \"twists\"; =1+1","done":"done: Zoë, \"twists\"; =1+1"}', '3389ee9af3dffd9a');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (27, 'f-trim', 'visit', 'v1', 'trim', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","cm":1}', '01d527c6506d700d');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (28, 'f-outcome', 'visit', 'v1', 'outcome', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","level":1,"lab":[1,1,1],"tone":"tone: Zoë, \"twists\"; =1+1","reader":"reader: Zoë, \"twists\"; =1+1","words":"words: Zoë, \"twists\"; =1+1"}', '76720455a5934e6f');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (29, 'f-curl', 'visit', 'v1', 'curl', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"zone":"zone: Zoë, \"twists\"; =1+1","before_cm":1,"after_cm":1}', '1129b768e2c5e066');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (30, 'f-aftercare', 'visit', 'v1', 'aftercare', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"words":"words: Zoë, \"twists\"; =1+1","refresh_on":"2025-05-14","regrowth_on":"2025-05-14"}', 'fb812b4d95946576');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (31, 'f-signature', 'visit', 'v1', 'signature', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"name":"name: Zoë, \"twists\"; =1+1","wording":"wording: Zoë, \"twists\"; =1+1"}', 'bcb22692ad27cf01');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (32, 'f-reaction', 'visit', 'v1', 'reaction', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"place":"place: Zoë, \"twists\"; =1+1","seen":"seen: Zoë, \"twists\"; =1+1","advice":"advice: Zoë, \"twists\"; =1+1"}', 'c22ca45ffa22aeff');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (33, 'f-finished', 'visit', 'v1', 'finished', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"notes":"notes: Zoë, \"twists\"; =1+1"}', 'b06de11010731d4d');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (34, 'f-lesson', 'visit', 'v1', 'lesson', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"version":1,"visits":[{"visit":"visit: Zoë, \"twists\"; =1+1","client":"c1","salon":"salon: Zoë, \"twists\"; =1+1","reader":"reader: Zoë, \"twists\"; =1+1","ln_rate":{"mean":1,"sd":1},"bias":{"mean":1,"sd":1},"wet_look":{"mean":1,"sd":1},"readings":[{"expected_level":1,"found_level":1,"per_ln_rate":1,"per_bias":1,"per_wet_look":1,"zone":"zone: Zoë, \"twists\"; =1+1","per_ln_pigment":1,"used_ln_pigment":1,"per_rest":1,"reader":"reader: Zoë, \"twists\"; =1+1"}],"scatter":[1]}],"amounts":[{"visit":"visit: Zoë, \"twists\"; =1+1","salon":"salon: Zoë, \"twists\"; =1+1","reckoned_g":1,"used_g":1,"used_factor":1}]}', '92dd03bbb70d63ec');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (35, 'f-movement', 'product', 'mask', 'movement', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"grams":1,"why":"bought","lot":"lot: Zoë, \"twists\"; =1+1"}', '35a0511ada11d1da');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (36, 'f-opened', 'product', 'mask', 'opened', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"lot":"lot: Zoë, \"twists\"; =1+1"}', 'e8ba6295e017b813');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (37, 'f-count', 'product', 'mask', 'count', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"grams":1}', 'c9b97716378122e6');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (38, 'f-learned', 'salon', 'salon', 'learned', '2025-05-14T10:00:00+02:00', 'Ines', '', '{"version":1,"factors":"factors: Zoë, \"twists\"; =1+1"}', 'd66f3044b6609f83');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (39, 'f-amend', 'visit', 'v1', 'pour', '2025-05-14T10:05:00+02:00', 'Ines', 'f-pour', '{"bowl":"1","product":"mask","grams":44}', '9c5ab0f97b41240b');
INSERT INTO fact OVERRIDING SYSTEM VALUE VALUES (40, '01M8A97J5M438GF12PSED84C60', 'client', 'c9', 'erased', '2026-11-25T21:19:19+00:00', 'Ines', '', '{}', '44af741d53e577a9');
INSERT INTO gone VALUES ('f-late');
INSERT INTO movement VALUES ('f-leftover', 'mask', 20, 1, 0, '2025-05-14T10:00:00+02:00', 'put back', 'v1');
INSERT INTO movement VALUES ('f-movement', 'mask', 35, 1, 0, '2025-05-14T10:00:00+02:00', 'bought', '');
INSERT INTO movement VALUES ('f-count', 'mask', 37, 1, 1, '2025-05-14T10:00:00+02:00', 'counted', '');
INSERT INTO movement VALUES ('f-pour', 'mask', 19, -44, 0, '2025-05-14T10:05:00+02:00', 'poured', 'v1');
INSERT INTO product VALUES ('mask');
INSERT INTO strip VALUES ('v1', '{"ladder_lstar":[],"zones":[]}');
INSERT INTO visit VALUES ('v1', 'c1', '2025-05-14T08:00:00Z', 4);
SELECT pg_catalog.setval('fact_place_seq', 40, true);
ALTER TABLE ONLY book_schema
    ADD CONSTRAINT book_schema_pkey PRIMARY KEY (number);
ALTER TABLE ONLY client
    ADD CONSTRAINT client_pkey PRIMARY KEY (id);
ALTER TABLE ONLY client_word
    ADD CONSTRAINT client_word_pkey PRIMARY KEY (word, client);
ALTER TABLE ONLY fact
    ADD CONSTRAINT fact_id_key UNIQUE (id);
ALTER TABLE ONLY fact
    ADD CONSTRAINT fact_pkey PRIMARY KEY (place);
ALTER TABLE ONLY gone
    ADD CONSTRAINT gone_pkey PRIMARY KEY (id);
ALTER TABLE ONLY movement
    ADD CONSTRAINT movement_pkey PRIMARY KEY (fact);
ALTER TABLE ONLY product
    ADD CONSTRAINT product_pkey PRIMARY KEY (id);
ALTER TABLE ONLY strip
    ADD CONSTRAINT strip_pkey PRIMARY KEY (visit);
ALTER TABLE ONLY visit
    ADD CONSTRAINT visit_pkey PRIMARY KEY (id);
CREATE INDEX client_sorted ON client USING btree (sorted, id);
CREATE INDEX client_word_client ON client_word USING btree (client);
CREATE INDEX fact_lesson ON fact USING btree (kind, place) WHERE (kind = ANY (ARRAY['lesson'::text, 'learned'::text]));
CREATE INDEX fact_subject ON fact USING btree (about, subject, place);
CREATE INDEX movement_product ON movement USING btree (product, place);
CREATE INDEX visit_client ON visit USING btree (client, starts, id);
CREATE INDEX visit_starts ON visit USING btree (starts, id);
