namespace Athwart.Scenes.Rendering;

/// <summary>How a capsule hears a source or image at one moment.</summary>
/// <param name="DelaySeconds">How long ago the sound was given off.</param>
/// <param name="Gain">Pattern times 1/r times reflection factors.</param>
/// <param name="BeamWeight">See <see cref="Capsule.BeamWeight"/>.</param>
internal readonly record struct Hearing(double DelaySeconds, double Gain, double BeamWeight);

/// <summary>A way from a moving source, perhaps by mirrors, to a capsule.</summary>
internal sealed class SoundWay(Sources.Trajectory trajectory, Surroundings.MirrorImage image, Capsule capsule, Scene scene)
{
    private const double NearestMetres = 0.05;
    private double _delay;

    /// <summary>The sound that arrives at a moment: t = τ + r(τ)/c is solved for the moment τ it was given off.</summary>
    /// <remarks>Successive approximation, which shrinks the error by v/c each time.</remarks>
    public Hearing At(double seconds)
    {
        var way = default(Place);
        for (var i = 0; i < 60; i++)
        {
            way = image.Of(trajectory.At(seconds - _delay)) - capsule.Place;
            var delay = way.Length / scene.SpeedOfSound;
            var change = Math.Abs(delay - _delay);
            _delay = delay;
            if (change < 1e-13)
                break;
        }

        var metres = Math.Max(way.Length, NearestMetres);
        var towards = (1 / metres) * way;
        return new(_delay, image.Gain * capsule.Gain(towards) / metres, capsule.BeamWeight(towards, scene.SampleRateHertz));
    }

    /// <summary>When the capsule hears what is given off at a moment.</summary>
    public double ArrivalOf(double emittedSeconds) => emittedSeconds + (Way(emittedSeconds).Length / scene.SpeedOfSound);

    /// <summary>From the capsule to the source or image at a moment.</summary>
    public Place Way(double emittedSeconds) => image.Of(trajectory.At(emittedSeconds)) - capsule.Place;
}
