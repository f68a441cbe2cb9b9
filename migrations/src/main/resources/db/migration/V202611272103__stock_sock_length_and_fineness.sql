-- How long a sock is, and what still passes through it; two sorts of one name and diameter are told apart by them.
alter table stock_item add column length_mm integer check (length_mm between 10 and 3000);
alter table stock_item add column fineness_um integer check (fineness_um between 1 and 2000);
alter table stock_item add constraint stock_item_sock_check
    check (kind = 'SOCK' or (length_mm is null and fineness_um is null));
drop index stock_item_key;
create unique index stock_item_key on stock_item (
    kind, name, coalesce(size_mm, 0), coalesce(length_mm, 0), coalesce(fineness_um, 0));
