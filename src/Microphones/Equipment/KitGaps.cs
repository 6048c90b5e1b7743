using Athwart.Microphones.Patterns;

namespace Athwart.Microphones.Equipment;

/// <summary>A figure that is not known, and what that costs.</summary>
/// <param name="Item">The name of the thing.</param>
/// <param name="Label">The label of the setting; empty where the whole thing is meant.</param>
/// <param name="Figure">The figure, by <see cref="KitFigure.Name"/>.</param>
/// <param name="Consequence">What cannot be answered, such as 'not ranked by noise'.</param>
public sealed record KitGap(string Item, string Label, string Figure, string Consequence)
{
    /// <summary>'noise not known: not ranked by noise'.</summary>
    public override string ToString() => $"{Figure} not known: {Consequence}";
}

/// <summary>What a kit cannot answer.</summary>
public static class KitGaps
{
    private const string WithoutPrice = "not counted in a budget";

    /// <summary>The figures that are missing, thing by thing.</summary>
    public static IReadOnlyList<KitGap> Of(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return
        [
            .. kit.Microphones.SelectMany(Of),
            .. kit.Recorders.SelectMany(Of),
            .. kit.Protections.SelectMany(p => Gaps(ProtectionFigures.All, p, p.Name).Concat(Priceless(p.Name, p.Owned, p.Price))),
        ];
    }

    /// <summary>What keeps the kit from making a mid-side pair at all, as whole sentences with the remedy; empty when it can.</summary>
    public static IReadOnlyList<string> Shortfalls(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        var shortfalls = new List<string>();
        var sides = kit.Microphones.Where(CanBeSide).ToList();
        if (kit.Microphones.Count == 0)
            shortfalls.Add("There is no microphone: add those you own and those you consider.");
        else if (sides.Count == 0)
            shortfalls.Add("No microphone here can be the side: none offers a figure-8. Add one, owned or considered.");
        else if (kit.Microphones.Sum(m => m.Count) < 2)
            shortfalls.Add($"'{sides[0].Name}' can be the side, but there is no second microphone to be the mid. Add one, owned or considered.");
        if (kit.Microphones.Count > 0 && kit.Recorders.Count == 0)
            shortfalls.Add("There is no recorder: gains, noise of the inputs and hours are not computed. Add one.");
        return shortfalls;
    }

    /// <summary>Whether one of its patterns is a figure-8.</summary>
    public static bool CanBeSide(Microphone microphone)
    {
        ArgumentNullException.ThrowIfNull(microphone);
        return microphone.Settings.Any(s => s.Pattern.IsFigureEight());
    }

    private static IEnumerable<KitGap> Of(Microphone microphone) =>
        microphone.Settings.SelectMany(s => Gaps(SettingFigures.All, s, microphone.Name, s.Label))
            .Concat(Gaps(MicrophoneFigures.All, microphone, microphone.Name))
            .Concat(Priceless(microphone.Name, microphone.Owned, microphone.Price));

    private static IEnumerable<KitGap> Of(Recorder recorder)
    {
        foreach (var gap in Gaps(RecorderFigures.All, recorder, recorder.Name).Concat(Priceless(recorder.Name, recorder.Owned, recorder.Price)))
            yield return gap;
        if (recorder.DecodesForMonitoring is null)
            yield return new(recorder.Name, "", "decodes for monitoring", "taken as one that cannot");
    }

    private static IEnumerable<KitGap> Gaps<T>(IReadOnlyList<KitFigure<T>> figures, T item, string name, string label = "") =>
        figures.Where(f => f.WithoutIt is not null && f.Read(item) is null).Select(f => new KitGap(name, label, f.Name, f.WithoutIt!));

    // What is owned need not be bought.
    private static IEnumerable<KitGap> Priceless(string name, bool owned, Price? price)
    {
        if (!owned && price is null)
            yield return new(name, "", "price", WithoutPrice);
    }
}
