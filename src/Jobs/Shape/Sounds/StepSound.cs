using Athwart.Jobs.Explain;

namespace Athwart.Jobs.Shape.Sounds;

/// <summary>How the work of a step is best seen.</summary>
internal enum StepView
{
    /// <summary>Its gain over frequency.</summary>
    Response = 0,

    /// <summary>The gain it lays on the side over time.</summary>
    SideGain,

    /// <summary>The level of the mid before and after.</summary>
    MidLevel,

    /// <summary>The level of the side before and after.</summary>
    SideLevel,

    /// <summary>How much louder the left is than the right, before and after.</summary>
    Lean,
}

/// <summary>A step with a made sound that lets it be heard: the same before and after.</summary>
/// <param name="Name">What its files are called.</param>
/// <param name="Says">What to listen to, one sentence.</param>
/// <param name="Step">The step.</param>
/// <param name="View">How it is drawn.</param>
/// <param name="Make">Makes the pair it is heard on.</param>
internal sealed record StepSound(string Name, string Says, TreatmentStep Step, StepView View, Func<ExampleSound> Make)
{
    /// <summary>Whether the sound has a mid alone.</summary>
    public bool IsMono => Step.Kind.MakesSide;
}
