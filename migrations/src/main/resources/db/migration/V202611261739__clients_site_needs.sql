-- What a stop at a site needs and when it can be; a site of which nobody has said anything has no row.
create table site_needs (
    site_id          uuid    primary key references site (id),
    -- two-letter days as in RFC 5545 (BYDAY), in the order of the week, such as MO,TH
    weekdays         text    not null check (weekdays ~ '^(MO|TU|WE|TH|FR|SA|SU)(,(MO|TU|WE|TH|FR|SA|SU)){0,6}$'),
    -- days on which nobody can come, with what for, such as 2026-12-20/2027-01-06 Refurbishment, with bars between
    closures         text    not null,
    -- from the arrival of the van until work can begin: parking, lift, key
    arrival_minutes  integer check (arrival_minutes between 0 and 240),
    -- how long the van may stand there
    parking_minutes  integer check (parking_minutes between 5 and 1440),
    -- how many days ahead a key or a code is asked for
    key_lead_days    integer check (key_lead_days between 1 and 90),
    two_people       boolean not null,
    electrician      boolean not null,
    diving           boolean not null,
    lift             text,
    version          integer not null
);
