using Athwart.Scenes.Numbers;
using Athwart.Scenes.Rendering;
using Athwart.Scenes.Sources;

namespace Athwart.Scenes.Faults;

/// <summary>The sources are silent over the stretch; surroundings and noise go on.</summary>
public sealed record LongSilence : Fault
{
    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Sources;

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var item = Item(take, FaultKinds.LongSilence, 0, "s");
        foreach (var role in WorkingTake.Roles(Role))
        {
            var samples = Samples(take, role);
            var silent = Added.Edges(samples.Length, take.Rate, whole: false);
            for (var i = 0; i < samples.Length; i++)
                samples[i] *= 1 - silent[i];
        }

        take.Items.Add(item with { Size = item.Range.Length.Value / (double)take.Rate });
    }
}

/// <summary>A voice beside the rig announces the take over the stretch; it ends at <see cref="Fault.ToSeconds"/>, which must be finite.</summary>
/// <param name="LevelDecibels">Sound pressure level of the voice at 1 m.</param>
/// <param name="AzimuthDegrees">From where.</param>
/// <param name="PitchHertz">The voice's pitch.</param>
public sealed record Slate(double LevelDecibels = 66, double AzimuthDegrees = 170, double PitchHertz = 120) : Fault
{
    private const double Metres = 0.6;

    /// <inheritdoc/>
    internal override FaultStage Stage => FaultStage.Sources;

    /// <inheritdoc/>
    internal override Scene Prepare(Scene scene) => scene with
    {
        Sources =
        [
            .. scene.Sources,
            new()
            {
                Name = "slate",
                Signal = new Voice(FromSeconds, ToSeconds, PitchHertz),
                Trajectory = new FixedPlace(scene.Rig.Place + Place.Polar(AzimuthDegrees, Metres)),
                LevelDecibels = LevelDecibels,
            },
        ],
    };

    /// <inheritdoc/>
    internal override void Apply(WorkingTake take, Chance chance)
    {
        var item = Item(take, FaultKinds.Slate, 0, "s");
        take.Items.Add(item with { Size = item.Range.Length.Value / (double)take.Rate });
    }
}
