using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Choosing;

/// <summary>What has to be bought for a rig, and what it costs.</summary>
public static class Purchases
{
    /// <summary>The parts that are not owned; a microphone that is both mid and side is bought twice.</summary>
    public static IReadOnlyList<Purchase> Of(Microphone mid, Microphone side, Recorder? recorder, WindProtection? protection)
    {
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        var purchases = new List<Purchase>(4);
        if (!mid.Owned)
            purchases.Add(new(mid.Name, mid.Price));
        if (!side.Owned)
            purchases.Add(new(side.Name, side.Price));
        if (recorder is { Owned: false })
            purchases.Add(new(recorder.Name, recorder.Price));
        if (protection is { Owned: false })
            purchases.Add(new(protection.Name, protection.Price));
        return purchases;
    }

    /// <summary>The known prices, by currency; currencies are never added.</summary>
    public static IReadOnlyList<Price> Sum(IReadOnlyList<Purchase> purchases)
    {
        ArgumentNullException.ThrowIfNull(purchases);
        return purchases.Count == 0 ? [] : PriceTotals.Of(purchases.Select(p => p.Price).OfType<Price>());
    }
}
