using System.Globalization;
using Athwart.Microphones.Equipment;
using Athwart.Quantities;

namespace Athwart.Jobs.Kits;

/// <summary>Every field of every kind of thing, in the order of the columns; reading and writing, CSV and JSON, all follow these lists.</summary>
internal static class KitFields
{
    public const string Yes = "yes";
    public const string No = "no";

    /// <summary>The other way to state a sensitivity; read, never written.</summary>
    public const string SensitivityInDecibels = "sensitivity dBV/Pa";

    public static IReadOnlyList<KitField<MicrophoneSetting>> Setting { get; } =
    [
        Text<MicrophoneSetting>("label", s => s.Label, (s, v) => s with { Label = v }),
        new("pattern", "pattern", "pattern", KitFieldType.Pattern, s => PatternText.Format(s.Pattern), ReadPattern),
        .. SettingFigures.All.Select(Number),
        new(SettingFigures.Sensitivity.Name, SensitivityInDecibels, null, KitFieldType.Number, _ => null, ReadSensitivityInDecibels),
    ];

    public static IReadOnlyList<KitField<Microphone>> Microphone { get; } =
    [
        .. MicrophoneFigures.All.Select(Number),
        .. Priced<Microphone>(m => m.Price, (m, v) => m with { Price = v }),
        Flag<Microphone>("owned", "owned", m => m.Owned, (m, v) => m with { Owned = v }),
        Text<Microphone>("notes", m => m.Notes, (m, v) => m with { Notes = v }),
    ];

    public static IReadOnlyList<KitField<Recorder>> Recorder { get; } =
    [
        .. RecorderFigures.All.Select(Number),
        Flag<Recorder>("decodes for monitoring", "decodesForMonitoring", r => r.DecodesForMonitoring, (r, v) => r with { DecodesForMonitoring = v }),
        .. Priced<Recorder>(r => r.Price, (r, v) => r with { Price = v }),
        Flag<Recorder>("owned", "owned", r => r.Owned, (r, v) => r with { Owned = v }),
        Text<Recorder>("notes", r => r.Notes, (r, v) => r with { Notes = v }),
    ];

    public static IReadOnlyList<KitField<WindProtection>> Protection { get; } =
    [
        .. ProtectionFigures.All.Select(Number),
        .. Priced<WindProtection>(p => p.Price, (p, v) => p with { Price = v }),
        Flag<WindProtection>("owned", "owned", p => p.Owned, (p, v) => p with { Owned = v }),
        Text<WindProtection>("notes", p => p.Notes, (p, v) => p with { Notes = v }),
    ];

    public static string PlainNumber(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static KitField<T> Number<T>(KitFigure<T> figure) => new(
        figure.Name,
        figure.Column,
        figure.Member,
        KitFieldType.Number,
        i => figure.Read(i) is { } value ? PlainNumber(value) : null,
        (i, text) =>
        {
            var value = double.Parse(text, CultureInfo.InvariantCulture);
            // A count is kept as a whole number, so it is judged before it becomes one.
            return figure.IsWhole && figure.Judge(value) is { IsRefusal: true } remark ? new(i, remark.Message, remark.Remedy) : new(figure.Write(i, value));
        });

    private static KitField<T> Text<T>(string name, Func<T, string> get, Func<T, string, T> set) =>
        new(name, name, name, KitFieldType.Text, i => get(i) is { Length: > 0 } text ? text : null, (i, v) => new(set(i, v)));

    private static KitField<T> Flag<T>(string name, string member, Func<T, bool?> get, Func<T, bool, T> set) => new(
        name,
        name,
        member,
        KitFieldType.Flag,
        i => get(i) is { } flag ? flag ? Yes : No : null,
        (i, v) => new(set(i, string.Equals(v, Yes, StringComparison.Ordinal))));

    private static IEnumerable<KitField<T>> Priced<T>(Func<T, Price?> get, Func<T, Price?, T> set)
    {
        yield return new(
            "price",
            "price",
            "price",
            KitFieldType.Number,
            i => get(i)?.Amount.ToString(CultureInfo.InvariantCulture),
            (i, v) => decimal.TryParse(v, NumberStyles.Float, CultureInfo.InvariantCulture, out var amount)
                ? new(set(i, new Price(amount, "")))
                : new(i, $"The price {v} cannot be.", "Check the number."));
        // Read after the price, whatever the order of the columns.
        yield return new(
            "currency",
            "currency",
            "currency",
            KitFieldType.Text,
            i => get(i)?.Currency,
            (i, v) => get(i) is { } price ? new(set(i, price with { Currency = v })) : new(i, "There is a currency without a price.", "Write the price, or leave the currency empty."));
    }

    private static Outcome<MicrophoneSetting> ReadPattern(MicrophoneSetting setting, string text) => PatternText.TryParse(text, out var pattern, out var rule)
        ? new(setting with { Pattern = pattern })
        : new(setting, "The pattern is not understood.", char.ToUpperInvariant(rule[0]) + rule[1..] + ".");

    // 0 dBV/Pa is 1 V/Pa.
    private static Outcome<MicrophoneSetting> ReadSensitivityInDecibels(MicrophoneSetting setting, string text) => setting.SensitivityMillivoltsPerPascal is null
        ? new(setting with { SensitivityMillivoltsPerPascal = 1000 * new Decibels(double.Parse(text, CultureInfo.InvariantCulture)).AmplitudeRatio })
        : new(setting, "The sensitivity is given in mV/Pa and in dBV/Pa.", "Give it once.");
}
