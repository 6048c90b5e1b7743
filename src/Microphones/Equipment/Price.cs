using System.Globalization;

namespace Athwart.Microphones.Equipment;

/// <summary>What something costs. Prices in two currencies are never added: no rate of exchange is known here.</summary>
/// <param name="Amount">0 or more.</param>
/// <param name="Currency">Three capital letters as of ISO 4217.</param>
public readonly record struct Price(decimal Amount, string Currency)
{
    /// <summary>'149 EUR', '149.50 EUR'; invariant culture.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Amount:0.##} {Currency}");
}
