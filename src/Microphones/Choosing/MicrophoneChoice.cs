using Athwart.Microphones.Equipment;

namespace Athwart.Microphones.Choosing;

/// <summary>A microphone of the kit as it would be set.</summary>
/// <param name="Microphone">The microphone.</param>
/// <param name="Setting">One of its settings.</param>
public sealed record MicrophoneChoice(Microphone Microphone, MicrophoneSetting Setting)
{
    /// <summary>'short shotgun A', or 'studio body B: figure-8' where it has several settings.</summary>
    public string Name => Setting.Label.Length == 0 ? Microphone.Name : $"{Microphone.Name}: {Setting.Label}";

    /// <summary>Every setting of every microphone of a kit, in the kit's order.</summary>
    public static IEnumerable<MicrophoneChoice> All(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return kit.Microphones.SelectMany(m => m.Settings.Select(s => new MicrophoneChoice(m, s)));
    }
}
