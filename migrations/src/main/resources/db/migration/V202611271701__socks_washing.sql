-- How the business washes its filter socks and comes by new ones; without the row the usual terms hold.
create table sock_washing (
    only_one          boolean primary key default true check (only_one),
    -- weekdays by their ISO number in order, such as 25 for Tuesday and Friday
    wash_days         text    not null check (wash_days ~ '^1?2?3?4?5?6?7?$'),
    hours_until_clean integer not null check (hours_until_clean between 1 and 168),
    socks_in_load     integer not null check (socks_in_load between 1 and 500),
    loads_a_day       integer not null check (loads_a_day between 1 and 20),
    delivery_days     integer not null check (delivery_days between 0 and 90),
    longest_swap_days integer not null check (longest_swap_days between 1 and 60),
    version           integer not null
);
