-- A sock that carries a tag of its own, so that its washes are counted exactly.
create table sock_tag (
    tag            text        primary key check (tag <> ''),
    item_id        uuid        not null references stock_item (id),
    washes         integer     not null check (washes >= 0),
    registered_at  timestamptz not null,
    -- since when it is used no more
    out_at         timestamptz
);
create unique index sock_tag_key on sock_tag (lower(tag));
create index sock_tag_item_id on sock_tag (item_id);

create table sock_wash_tag (
    wash_id  uuid not null references sock_wash (id),
    tag      text not null references sock_tag (tag),
    primary key (wash_id, tag)
);
create index sock_wash_tag_tag on sock_wash_tag (tag);
