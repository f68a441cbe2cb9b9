-- Whose public holidays the business keeps; without a row it keeps none.
create table holiday_calendar (
    id       uuid    primary key,
    -- one row at most
    only_one boolean not null unique check (only_one),
    -- ISO 3166 country and, after a hyphen, a part of it as the library of holidays calls it, such as DE-BY; null for none
    code     text    check (code ~ '^[A-Z]{2}(-[A-Z0-9]{1,6})?$'),
    version  integer not null
);
