using System.Text.Json.Serialization;

namespace Athwart.Jobs.Shape;

/// <summary>One step of a treatment: its kind and its settings.</summary>
/// <remarks>In JSON one object: <c>step</c> names the kind, the settings follow, <c>note</c> is for people.</remarks>
[JsonConverter(typeof(TreatmentStepConverter))]
public sealed record TreatmentStep
{
    private TreatmentStep(StepKind kind, object settings, string? note)
    {
        Kind = kind;
        Settings = settings;
        Note = note;
    }

    /// <summary>What kind of step it is.</summary>
    public StepKind Kind { get; }

    /// <summary>Its settings, of the type the kind has.</summary>
    public object Settings { get; }

    /// <summary>Why it is there; null for nothing said.</summary>
    public string? Note { get; }

    /// <summary>A step from its settings.</summary>
    /// <param name="settings">Settings of a kind in <see cref="StepKinds"/>.</param>
    /// <param name="note">Why it is there.</param>
    /// <exception cref="ArgumentException">No kind of step has settings of this type.</exception>
    public static TreatmentStep Of(object settings, string? note = null)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var kind = StepKinds.All.FirstOrDefault(k => k.SettingsType == settings.GetType())
            ?? throw new ArgumentException($"No kind of step has settings of type {settings.GetType().Name}.", nameof(settings));
        return new(kind, settings, note);
    }

    /// <summary>What the step does, in words: 'trim: side, gain −3 dB'.</summary>
    public override string ToString() => StepWords.Describe(this);

    internal static TreatmentStep Read(StepKind kind, object settings, string? note) => new(kind, settings, note);
}
