using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>A kind of step that a treatment may have: what it is called, what its settings are, and how it is put to work.</summary>
public abstract class StepKind
{
    private protected StepKind(string name, string summary)
    {
        Name = name;
        Summary = summary;
    }

    /// <summary>What JSON calls it, such as 'low-cut'.</summary>
    public string Name { get; }

    /// <summary>What it does, one sentence.</summary>
    public string Summary { get; }

    /// <summary>The type of its settings.</summary>
    public abstract Type SettingsType { get; }

    /// <summary>Whether what it needs to know is in the rig profile, so that it is worked out for each take before it is used.</summary>
    public bool NeedsRig { get; init; }

    /// <summary>Whether it gives a take without a side one.</summary>
    public bool MakesSide { get; init; }

    /// <summary>Whether it holds a level or a correlation to a limit, which nothing after it may spoil.</summary>
    public bool IsGuard { get; init; }

    /// <summary>Whether what it does depends on the sound, the place or the speed, so that it has no response over frequency.</summary>
    public bool FollowsSound { get; init; }

    /// <summary>Whose samples come out changed.</summary>
    /// <param name="settings">Settings of <see cref="SettingsType"/>.</param>
    public abstract PairRoles Changes(object settings);

    /// <summary>Puts the step to work.</summary>
    /// <param name="settings">Settings of <see cref="SettingsType"/>.</param>
    /// <param name="place">Where it works.</param>
    /// <exception cref="ArgumentException">The settings do not go with the rate, such as a frequency past half of it.</exception>
    public abstract IPairStage Stage(object settings, StepPlace place);

    /// <summary>The fields that its settings are made from, in their order.</summary>
    internal abstract IEnumerable<(string Name, Type Type)> Fields { get; }

    internal abstract object Read(JsonElement settings);

    internal abstract IEnumerable<JsonProperty> Write(object settings);
}

/// <summary>A kind of step with settings of one type.</summary>
internal sealed class StepKind<T>(string name, string summary, JsonTypeInfo<T> json, Func<T, PairRoles> changes, Func<T, StepPlace, IPairStage> stage) : StepKind(name, summary)
    where T : class
{
    /// <inheritdoc/>
    public override Type SettingsType => typeof(T);

    /// <inheritdoc/>
    public override PairRoles Changes(object settings) => changes((T)settings);

    /// <inheritdoc/>
    public override IPairStage Stage(object settings, StepPlace place) => stage((T)settings, place);

    internal override IEnumerable<(string Name, Type Type)> Fields => json.Properties.Where(p => p.AssociatedParameter is not null).Select(p => (p.Name, p.PropertyType));

    internal override object Read(JsonElement settings) => settings.Deserialize(json)!;

    // What is worked out from the settings is not written: only what they are made from.
    internal override IEnumerable<JsonProperty> Write(object settings) => JsonSerializer.SerializeToElement((T)settings, json).EnumerateObject()
        .Where(f => json.Properties.Any(p => p.AssociatedParameter is not null && string.Equals(p.Name, f.Name, StringComparison.Ordinal)));
}

/// <summary>Where a step works.</summary>
/// <param name="SampleRateHertz">The take's rate.</param>
/// <param name="SideGain">g of the decode that follows, an amplitude ratio.</param>
/// <param name="Frames">How long the sound is that it works on, counted from the take's first frame; what comes after is not sound to go by.</param>
public readonly record struct StepPlace(int SampleRateHertz, double SideGain, long Frames = long.MaxValue);
