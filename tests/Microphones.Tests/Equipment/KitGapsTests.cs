using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Tests.Equipment;

public sealed class KitGapsTests
{
    private static readonly Microphone Mid = new() { Name = "mid", Settings = [new() { Pattern = FirstOrderPattern.Cardioid }], Owned = true };
    private static readonly Microphone Side = new() { Name = "side", Settings = [new() { Pattern = FirstOrderPattern.FigureEight, Label = "8" }] };
    private static readonly Recorder Recorder = new() { Name = "recorder" };

    [Fact]
    public void AFigureThatIsNotKnown_IsNamedWithWhatItCosts()
    {
        var gaps = KitGaps.Of(new() { Microphones = [Mid, Side], Recorders = [Recorder] });
        Assert.Contains(new KitGap("side", "8", "noise", "not ranked by noise"), gaps);
        Assert.Contains(new KitGap("side", "", "price", "not counted in a budget"), gaps);
        // What is owned need not be bought.
        Assert.DoesNotContain(gaps, g => g is { Item: "mid", Figure: "price" });
        Assert.Contains(gaps, g => g is { Item: "recorder", Figure: "decodes for monitoring" });
        Assert.Equal("noise not known: not ranked by noise", gaps.First(g => g.Figure == "noise").ToString());
    }

    [Fact]
    public void AFigureThatIsKnown_IsNoGap() => Assert.DoesNotContain(
        KitGaps.Of(new() { Microphones = [Mid with { Settings = [Mid.Settings[0] with { EquivalentNoiseDecibelsA = 16 }] }] }), g => g.Figure == "noise");

    [Fact]
    public void AKitThatCannotMakeAPair_SaysWhy()
    {
        Assert.Contains("no microphone", Shortfall(), StringComparison.Ordinal);
        Assert.Contains("none offers a figure-8", Shortfall(Mid, Mid with { Name = "other" }), StringComparison.Ordinal);
        Assert.Contains("no second microphone", Shortfall(Side), StringComparison.Ordinal);
        Assert.Empty(KitGaps.Shortfalls(new() { Microphones = [Mid, Side], Recorders = [Recorder] }));
        Assert.Empty(KitGaps.Shortfalls(new() { Microphones = [Side with { Count = 2 }], Recorders = [Recorder] }));
        Assert.Contains("no recorder", Assert.Single(KitGaps.Shortfalls(new() { Microphones = [Mid, Side] })), StringComparison.Ordinal);

        static string Shortfall(params Microphone[] microphones) => Assert.Single(KitGaps.Shortfalls(new() { Microphones = microphones, Recorders = [Recorder] }));
    }

    [Fact]
    public void PricesInTwoCurrencies_AreNeverAdded()
    {
        var totals = PriceTotals.Of([new(100, "USD"), new(20.50m, "EUR"), new(1, "USD"), new(0.10m, "EUR")]);
        Assert.Equal([new(20.60m, "EUR"), new(101, "USD")], totals);
        Assert.Equal("20.6 EUR and 101 USD", PriceTotals.Text(totals));
        Assert.Equal("nothing", PriceTotals.Text(PriceTotals.Of([])));
    }
}
