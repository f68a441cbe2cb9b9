package app.tankround.stock;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.jdbc.repository.query.Query;
import org.springframework.data.repository.ListCrudRepository;

interface StockItems extends ListCrudRepository<StockItem, StockItemId> {

    @Query("""
            select * from stock_item
            order by array_position(array['SALT', 'SOCK', 'MEDIA', 'DOSE', 'TEST_KIT'], kind), lower(name), size_mm, length_mm nulls first, fineness_um nulls first, id
            """)
    List<StockItem> all();

    @Query("""
            select * from stock_item
            where kind = :kind and lower(name) = lower(:name) and coalesce(size_mm, 0) = coalesce(:sizeMm, 0)
            order by name = :name desc, id
            limit 1
            """)
    Optional<StockItem> findByKey(String kind, String name, @Nullable Integer sizeMm);

    @Query("""
            select * from stock_item
            where kind = :kind and lower(name) = lower(:name) and coalesce(size_mm, 0) = coalesce(:sizeMm, 0)
                and coalesce(length_mm, 0) = coalesce(:lengthMm, 0) and coalesce(fineness_um, 0) = coalesce(:finenessUm, 0)
            order by name = :name desc, id
            limit 1
            """)
    Optional<StockItem> findSame(
            String kind,
            String name,
            @Nullable Integer sizeMm,
            @Nullable Integer lengthMm,
            @Nullable Integer finenessUm);

    @Query("select * from stock_item where kind = 'SOCK' and size_mm = :sizeMm order by id")
    List<StockItem> socks(int sizeMm);
}
