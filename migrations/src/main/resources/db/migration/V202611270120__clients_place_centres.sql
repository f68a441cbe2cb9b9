-- Where the middle of a postal code or town is, as the business says: sites there without coordinates are planned by it.
create table place_centre (
    id         uuid              primary key,
    kind       text              not null check (kind in ('POSTAL_CODE', 'LOCALITY')),
    name       text              not null check (name <> ''),
    latitude   double precision  not null check (latitude between -90 and 90),
    longitude  double precision  not null check (longitude between -180 and 180),
    version    integer           not null
);
create unique index place_centre_name on place_centre (kind, upper(name));
