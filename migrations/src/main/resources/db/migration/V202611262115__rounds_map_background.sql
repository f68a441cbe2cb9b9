-- From where the pictures behind a round's map come; without a row, or without an address, it has none.
create table map_background (
    id           uuid     primary key,
    -- one row at most
    only_one     boolean  not null unique check (only_one),
    -- such as https://tiles.example/{z}/{x}/{y}.png
    address      text,
    -- what the owner of the pictures asks to have written on the map
    attribution  text,
    -- the closest that they are drawn
    most_zoom    integer  not null check (most_zoom between 1 and 22),
    version      integer  not null,
    check ((address is null) = (attribution is null))
);
