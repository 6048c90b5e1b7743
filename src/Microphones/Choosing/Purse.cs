using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Choosing;

/// <summary>In which currency costs are compared, and in which steps.</summary>
internal sealed class Purse
{
    public Purse(Kit kit, Wishes wishes)
    {
        var prices = kit.Microphones.Where(m => !m.Owned).Select(m => m.Price).Concat(kit.Recorders.Where(r => !r.Owned).Select(r => r.Price)).OfType<Price>().ToList();
        Currency = wishes.Budget?.Currency ?? prices.GroupBy(p => p.Currency, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).FirstOrDefault()?.Key ?? "";
        var whole = wishes.Budget?.Amount ?? prices.Where(p => string.Equals(p.Currency, Currency, StringComparison.Ordinal)).Select(p => p.Amount).OrderDescending().Take(2).Sum();
        StepOfCost = whole > 0 ? (double)whole / 10 : 1;
    }

    /// <summary>The budget's currency, else the commonest of the kit; empty when there is no price.</summary>
    public string Currency { get; }

    /// <summary>A tenth of the budget, else of the two dearest things together.</summary>
    public double StepOfCost { get; }

    /// <summary>The cost in <see cref="Currency"/>; null when a price is not known or in another.</summary>
    public decimal? Comparable(IReadOnlyList<Purchase> purchases)
    {
        decimal sum = 0;
        foreach (var purchase in purchases)
        {
            if (purchase.Price is not { } price || !string.Equals(price.Currency, Currency, StringComparison.Ordinal))
                return null;
            sum += price.Amount;
        }

        return sum;
    }
}
