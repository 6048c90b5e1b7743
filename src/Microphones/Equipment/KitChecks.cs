using System.Globalization;
using Athwart.Quantities;

namespace Athwart.Microphones.Equipment;

/// <summary>The check at the door of the kit: what cannot be is refused, what is unusual is kept with a remark.</summary>
public static class KitChecks
{
    /// <summary>The longest name or label.</summary>
    public const int LongestName = 80;

    /// <summary>The longest notes.</summary>
    public const int LongestNotes = 4000;

    private const decimal HighestPrice = 1_000_000;

    // 1 Pa is 94 dB SPL.
    private const double PascalDecibels = 94;

    // Common practice: phantom powered outputs clip at some volts.
    private const double HighestOutputVolts = 12;

    /// <summary>Everything there is to say about a microphone, in the order of its columns.</summary>
    public static IReadOnlyList<KitRemark> Of(Microphone microphone)
    {
        ArgumentNullException.ThrowIfNull(microphone);
        var remarks = Common(microphone.Name, microphone.Price, microphone.Notes);
        remarks.AddRange(Judge(MicrophoneFigures.All, microphone));
        if (microphone.Settings.Count == 0)
            remarks.Add(KitRemark.Impossible("pattern", "A microphone has at least one pattern.", "Say which, such as cardioid or figure-8."));
        for (var index = 0; index < microphone.Settings.Count; index++)
        {
            var setting = index;
            remarks.AddRange(Of(microphone, microphone.Settings[index]).Select(r => r with { Setting = setting }));
        }

        return remarks;
    }

    /// <summary>Everything there is to say about a recorder, in the order of its columns.</summary>
    public static IReadOnlyList<KitRemark> Of(Recorder recorder)
    {
        ArgumentNullException.ThrowIfNull(recorder);
        var remarks = Common(recorder.Name, recorder.Price, recorder.Notes);
        remarks.AddRange(Judge(RecorderFigures.All, recorder));
        if (recorder.MinimumGainDecibels >= recorder.MaximumGainDecibels)
            remarks.Add(KitRemark.Impossible("maximum gain", $"{RecorderFigures.MaximumGain.Text(recorder.MaximumGainDecibels!.Value)} is not above {RecorderFigures.MinimumGain.Text(recorder.MinimumGainDecibels!.Value)}.", "Check that the two are not swapped."));
        else if (recorder.GainStepDecibels > recorder.MaximumGainDecibels - recorder.MinimumGainDecibels)
            remarks.Add(KitRemark.Impossible("gain step", $"{RecorderFigures.GainStep.Text(recorder.GainStepDecibels!.Value)} is more than the whole range of the gain.", "Give the step between two neighbouring positions; 0 when it turns freely."));
        if (recorder.BatteryHoursWithPhantom > recorder.BatteryHours)
            remarks.Add(KitRemark.Impossible("battery with phantom", $"{RecorderFigures.BatteryWithPhantom.Text(recorder.BatteryHoursWithPhantom!.Value)} is longer than {RecorderFigures.Battery.Text(recorder.BatteryHours!.Value)} without: drawing current cannot lengthen it.", "Check that the two are not swapped."));
        return remarks;
    }

    /// <summary>Everything there is to say about a wind protection, in the order of its columns.</summary>
    public static IReadOnlyList<KitRemark> Of(WindProtection protection)
    {
        ArgumentNullException.ThrowIfNull(protection);
        return [.. Common(protection.Name, protection.Price, protection.Notes), .. Judge(ProtectionFigures.All, protection)];
    }

    private static IEnumerable<KitRemark> Of(Microphone microphone, MicrophoneSetting setting)
    {
        foreach (var remark in Label(microphone, setting).Concat(Judge(SettingFigures.All, setting)))
            yield return remark;
        if (setting.EquivalentNoiseDecibelsA >= setting.MaximumLevelDecibels)
            yield return KitRemark.Impossible("noise", $"{SettingFigures.Noise.Text(setting.EquivalentNoiseDecibelsA!.Value)} is not below {SettingFigures.MaximumLevel.Text(setting.MaximumLevelDecibels!.Value)}: such a microphone could record nothing.", "Check that the two are not swapped.");
        if (setting.LowHertz >= setting.HighHertz)
            yield return KitRemark.Impossible("low end", $"{SettingFigures.LowEnd.Text(setting.LowHertz!.Value)} is not below {SettingFigures.HighEnd.Text(setting.HighHertz!.Value)}.", "Check that the two are not swapped, and that both are in Hz.");
        if (OutputVolts(setting) is { } volts and > HighestOutputVolts)
        {
            yield return KitRemark.Unusual(
                "maximum level",
                string.Create(CultureInfo.InvariantCulture, $"With this sensitivity the maximum level would put out {volts:0} V, which hardly any supply can give."),
                "Check sensitivity and maximum level against the data sheet.");
        }
    }

    private static double? OutputVolts(MicrophoneSetting setting) =>
        setting.SensitivityMillivoltsPerPascal / 1000 * (setting.MaximumLevelDecibels is { } level ? new Decibels(level - PascalDecibels).AmplitudeRatio : null);

    private static IEnumerable<KitRemark> Label(Microphone microphone, MicrophoneSetting setting)
    {
        if (NameRule(setting.Label) is { } rule && setting.Label.Length > 0)
            yield return KitRemark.Impossible("label", $"The label '{setting.Label}' {rule}.", "Write what the switch or the capsule says.");
        if (microphone.Settings.Count > 1 && setting.Label.Length == 0)
            yield return KitRemark.Impossible("label", $"'{microphone.Name}' has several patterns, and this one has no label.", "Give each pattern the label that the switch or the capsule says, or each microphone its own name; two alike are one microphone with a count of 2.");
        if (microphone.Settings.TakeWhile(s => !ReferenceEquals(s, setting)).Any(s => s.Label.Length > 0 && s.Label.Equals(setting.Label, StringComparison.OrdinalIgnoreCase)))
            yield return KitRemark.Impossible("label", $"'{microphone.Name}' has the pattern '{setting.Label}' twice.", "Keep one, or give it another label; say with 'count' how many you have.");
    }

    private static IEnumerable<KitRemark> Judge<T>(IReadOnlyList<KitFigure<T>> figures, T item) =>
        figures.Select(f => f.Judge(f.Read(item))).OfType<KitRemark>();

    private static List<KitRemark> Common(string name, Price? price, string notes)
    {
        var remarks = new List<KitRemark>();
        if (NameRule(name) is { } rule)
            remarks.Add(KitRemark.Impossible("name", $"The name '{name}' {rule}.", "Give it a name by which you know it."));
        if (price is { } known)
            remarks.AddRange(Of(known));
        if (notes.Length > LongestNotes || !IsText(notes))
            remarks.Add(KitRemark.Impossible("notes", string.Create(CultureInfo.InvariantCulture, $"Notes are text of at most {LongestNotes} letters."), "Shorten them."));
        return remarks;
    }

    private static IEnumerable<KitRemark> Of(Price price)
    {
        if (price.Amount < 0)
            yield return KitRemark.Impossible("price", $"The price {price} is below 0.", "Write 0 for what costs nothing, or leave it empty when it is not known.");
        if (price.Amount > HighestPrice)
            yield return KitRemark.Impossible("price", string.Create(CultureInfo.InvariantCulture, $"The price {price} is above {HighestPrice}."), "Check its decimal sign.");
        if (price.Currency.Length != 3 || !price.Currency.All(char.IsAsciiLetterUpper))
            yield return KitRemark.Impossible("currency", price.Currency.Length == 0 ? "The price has no currency." : $"'{price.Currency}' is no currency.", "Write the three letters of ISO 4217, such as EUR, GBP or USD.");
    }

    private static string? NameRule(string name)
    {
        if (string.IsNullOrWhiteSpace(name))
            return "is empty";
        if (name.Length > LongestName)
            return string.Create(CultureInfo.InvariantCulture, $"is longer than {LongestName} letters");
        if (name.Any(char.IsControl) || !IsText(name))
            return "holds a control character";
        return name.Trim().Length < name.Length ? "begins or ends with a blank" : null;
    }

    // Half of a surrogate pair cannot be kept as UTF-8.
    private static bool IsText(string text)
    {
        for (var at = 0; at < text.Length; at++)
        {
            if (!char.IsSurrogate(text[at]))
                continue;
            if (!char.IsSurrogatePair(text, at++))
                return false;
        }

        return true;
    }
}
