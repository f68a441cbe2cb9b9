-- What was planned for a task of a visit and what was used of it: litres, pieces, millilitres or grams. The visit is named
-- by its id alone; what it says later replaces what it said before.
create table task_use (
    visit_id         uuid    not null,
    water_system_id  uuid    not null references water_system (id),
    task             text    not null check (task in ('WATER_CHANGE', 'TOP_UP', 'SOCK_SWAP', 'DOSE')),
    -- a size of socks, a product with its unit, or nothing
    item             text    not null,
    planned          double precision not null check (planned > 0),
    used             double precision not null check (used >= 0),
    used_on          date    not null,
    primary key (visit_id, water_system_id, task, item)
);
create index task_use_system on task_use (water_system_id, task, item, used_on desc);

-- Of the last uses of each, the sums from which loads are worked out: how many, the mean of used over planned, and the sum
-- of squares around it. Rounds up to the week that begins on the Monday kept here go by the sums of before, so that a
-- sheet stays as it is while its week goes on.
create table learned_use (
    water_system_id  uuid    not null references water_system (id),
    task             text    not null,
    item             text    not null,
    week             date    not null,
    visits           integer not null check (visits >= 0),
    mean             double precision not null,
    squares          double precision not null check (squares >= 0),
    visits_before    integer not null check (visits_before >= 0),
    mean_before      double precision not null,
    squares_before   double precision not null check (squares_before >= 0),
    primary key (water_system_id, task, item)
);
