-- What it costs to have one litre, kilogram, piece, millilitre or gram too little or too much in the van, from which
-- follows how sure a load is; and how sure it is at least of what animals or people may be harmed without.
create table load_terms (
    id               uuid    primary key,
    only_one         boolean not null unique check (only_one),
    by_use           boolean not null,
    water_few        numeric not null check (water_few > 0),
    water_many       numeric not null check (water_many > 0),
    salt_few         numeric not null check (salt_few > 0),
    salt_many        numeric not null check (salt_many > 0),
    socks_few        numeric not null check (socks_few > 0),
    socks_many       numeric not null check (socks_many > 0),
    doses_few        numeric not null check (doses_few > 0),
    doses_many       numeric not null check (doses_many > 0),
    safety_percent   numeric not null check (safety_percent between 50 and 99.99),
    version          integer not null
);
