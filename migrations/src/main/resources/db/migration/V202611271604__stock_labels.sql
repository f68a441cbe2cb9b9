-- Where a thing stands on the shelf, how it is scanned, and what is dangerous about it.
create table stock_label (
    item_id    uuid    primary key references stock_item (id),
    -- in the order in which somebody walks along, such as A2
    shelf      text,
    -- digits of a GTIN, or whatever else is printed
    barcode    text,
    hazard     text    not null check (hazard <> ''),
    -- the supplier's safety data sheet
    sheet_id   uuid    references stored_file (id),
    version    integer not null
);
create unique index stock_label_barcode on stock_label (barcode);
create index stock_label_sheet_id on stock_label (sheet_id);

-- Counts that were taken down, so that none is taken down twice.
create table stock_count (
    id          uuid        primary key,
    counted_at  timestamptz not null,
    person_id   uuid        references person (id)
);
create index stock_count_person_id on stock_count (person_id);
