using Athwart.Catalogue;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>A kit and what can be said of it.</summary>
/// <param name="Kit">The kit.</param>
/// <param name="Gaps">What is not known, and what that costs.</param>
/// <param name="Shortfalls">What keeps it from making a pair at all, whole sentences; empty when it can.</param>
/// <param name="Unusual">Values that are kept though they are unusual, by the name of the thing.</param>
/// <param name="Owned">The prices of what is owned, one sum a currency.</param>
/// <param name="Considered">The prices of what is considered, one sum a currency.</param>
public sealed record KitReport(
    Kit Kit,
    IReadOnlyList<KitGap> Gaps,
    IReadOnlyList<string> Shortfalls,
    IReadOnlyList<(string Item, KitRemark Remark)> Unusual,
    IReadOnlyList<Price> Owned,
    IReadOnlyList<Price> Considered);

/// <summary>Looks a kit over.</summary>
public static class KitListJob
{
    /// <summary>The kit of a library.</summary>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitReport Run(string libraryFolder) => Describe(KitStore.Load(libraryFolder));

    /// <summary>Any kit.</summary>
    public static KitReport Describe(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return new(kit, KitGaps.Of(kit), KitGaps.Shortfalls(kit), [.. Unusual(kit)], Total(kit, owned: true), Total(kit, owned: false));
    }

    private static IEnumerable<(string Item, KitRemark Remark)> Unusual(Kit kit) =>
        kit.Microphones.SelectMany(m => KitChecks.Of(m).Select(r => (m.Name, r)))
            .Concat(kit.Recorders.SelectMany(r => KitChecks.Of(r).Select(remark => (r.Name, remark))))
            .Concat(kit.Protections.SelectMany(p => KitChecks.Of(p).Select(r => (p.Name, r))));

    private static IReadOnlyList<Price> Total(Kit kit, bool owned)
    {
        var microphones = kit.Microphones.Where(m => m.Owned == owned && m.Price is not null).Select(m => m.Price!.Value with { Amount = m.Price!.Value.Amount * m.Count });
        var recorders = kit.Recorders.Where(r => r.Owned == owned).Select(r => r.Price).OfType<Price>();
        var protections = kit.Protections.Where(p => p.Owned == owned).Select(p => p.Price).OfType<Price>();
        return PriceTotals.Of([.. microphones, .. recorders, .. protections]);
    }
}
