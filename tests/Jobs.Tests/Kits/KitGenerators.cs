using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;
using Athwart.Quantities;
using CsCheck;

namespace Athwart.Jobs.Tests.Kits;

/// <summary>Kits of any values that the door lets in.</summary>
internal static class KitGenerators
{
    private static readonly Gen<string> Awkward = Gen.OneOf(Gen.Char.AlphaNumeric, Among(',', ';', '"', '\'', ' ', '=', '#', 'é', '8')).Array[0, 12].Select(c => new string(c));

    private static readonly Gen<string> Notes = Gen.OneOf(Gen.Char.AlphaNumeric, Among(',', '"', '\n', '\r', ' ', '–', '-', '?')).Array[0, 12].Select(c => new string(c));

    private static readonly Gen<Price?> AnyPrice = Gen.Select(Gen.Bool, Gen.Long[0, 99_999_999], Gen.Int[0, 2], Among("EUR", "USD", "GBP"))
        .Select((known, amount, scale, currency) => known ? new Price(new decimal(amount) / (scale == 0 ? 100m : scale == 1 ? 10_00m : 1000m), currency) : (Price?)null);

    private static readonly Gen<IPattern> Table = Gen.Select(Gen.Double[1, 20_000], Gen.Double[1, 179], Gen.Double[-60, 10], Gen.Bool, Gen.Bool).Select((f, a, l, o, b) => (IPattern)new TabulatedPattern(
        [new(new(f), new(0), new(0)), new(new(f), new(a), new(l), o), new(new(f), new(180), Decibels.Silence)], b ? LobeBehind.Opposite : LobeBehind.AsMarked));

    private static readonly Gen<IPattern> Pattern = Gen.OneOf(Gen.Int[0, 5].Select(i => (IPattern)FirstOrderPattern.Named[i]), Gen.Double[0, 1].Select(s => (IPattern)new FirstOrderPattern(s)), Table);

    public static Gen<Kit> Kit { get; } = Gen.Select(Microphone().List[0, 3], Recorder().List[0, 2], Protection().List[0, 2], (m, r, p) => new Kit
    {
        Microphones = [.. m.Select((x, i) => x with { Name = Named(x.Name, i) })],
        Recorders = [.. r.Select((x, i) => x with { Name = Named(x.Name, i) })],
        Protections = [.. p.Select((x, i) => x with { Name = Named(x.Name, i) })],
    });

    public static Gen<T> Among<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static string Named(string awkward, int index) => $"n{awkward}{index}";

    private static Gen<Microphone> Microphone() => Gen.Select(Awkward, Setting().List[1, 3], Gen.Select(AnyPrice, Gen.Bool, Notes), Numbers(MicrophoneFigures.All), (name, settings, rest, write) => write(new Microphone
    {
        Name = name,
        Settings = settings.Count == 1 ? settings : [.. settings.Select((s, i) => s with { Label = Named(s.Label, i) })],
        Price = rest.Item1,
        Owned = rest.Item2,
        Notes = rest.Item3,
    }));

    private static Gen<MicrophoneSetting> Setting() => Gen.Select(Gen.Char.AlphaNumeric, Pattern, Numbers(SettingFigures.All), (label, pattern, write) => write(new() { Label = label.ToString(), Pattern = pattern }))
        .Where(s => !(s.EquivalentNoiseDecibelsA >= s.MaximumLevelDecibels) && !(s.LowHertz >= s.HighHertz));

    private static Gen<Recorder> Recorder() => Gen.Select(Awkward, Gen.Select(AnyPrice, Gen.Bool, Notes), Among<bool?>(null, true, false), Numbers(RecorderFigures.All), (name, rest, decodes, write) =>
        write(new() { Name = name, Price = rest.Item1, Owned = rest.Item2, Notes = rest.Item3, DecodesForMonitoring = decodes }) with { GainStepDecibels = 0, BatteryHoursWithPhantom = null, MaximumGainDecibels = null });

    private static Gen<WindProtection> Protection() => Gen.Select(Awkward, Gen.Select(AnyPrice, Gen.Bool, Notes), Numbers(ProtectionFigures.All), (name, rest, write) =>
        write(new() { Name = name, Price = rest.Item1, Owned = rest.Item2, Notes = rest.Item3 }));

    // Each figure not known, or anywhere within its bounds to the last bit.
    private static Gen<Func<T, T>> Numbers<T>(IReadOnlyList<KitFigure<T>> figures) => Gen.Select(Gen.Double[0, 1], Gen.Bool).Array[figures.Count].Select(draws => (Func<T, T>)(thing =>
    {
        for (var i = 0; i < figures.Count; i++)
        {
            var value = figures[i].Lowest + (draws[i].Item1 * (figures[i].Highest - figures[i].Lowest));
            thing = draws[i].Item2 ? figures[i].Write(thing, figures[i].IsWhole ? Math.Floor(value) : Math.Clamp(value, figures[i].Lowest, figures[i].Highest)) : thing;
        }

        return thing;
    }));
}
