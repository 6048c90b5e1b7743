using Athwart.Quantities;

namespace Athwart.Jobs.Shape;

/// <summary>A step that a finding, or the rig, asks for; it is done only when the recordist accepts it.</summary>
/// <param name="Number">By which it is accepted, from 1.</param>
/// <param name="Step">The step.</param>
/// <param name="Reason">What it answers, one sentence.</param>
/// <param name="Finding">The finding it answers; null where the rig profile asks for it.</param>
public sealed record StepProposal(int Number, TreatmentStep Step, string Reason, Finding? Finding);
