-- How times are reckoned: whether by what was learned, and how sure a time has to be that a client is told.
create table time_rules (
    id                uuid     primary key,
    only_one          boolean  not null unique check (only_one),
    learned_minutes   boolean  not null,
    learned_travel    boolean  not null,
    -- in percent: how likely the van is to come within the times told
    confidence        integer  not null check (confidence between 50 and 99),
    version           integer  not null
);
