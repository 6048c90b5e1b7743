namespace Athwart.Microphones.Equipment;

/// <summary>Sums of prices, one a currency: what costs 100 EUR and 100 USD costs just that, for no rate of exchange is known.</summary>
public static class PriceTotals
{
    /// <summary>The sum in each currency, in the order of their letters; empty for no prices.</summary>
    public static IReadOnlyList<Price> Of(IEnumerable<Price> prices) =>
    [
        .. prices.GroupBy(p => p.Currency, StringComparer.Ordinal)
            .OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new Price(g.Sum(p => p.Amount), g.Key)),
    ];

    /// <summary>'149 EUR and 30 USD'; 'nothing' for no prices.</summary>
    public static string Text(IReadOnlyList<Price> totals) => totals.Count == 0 ? "nothing" : string.Join(" and ", totals);
}
